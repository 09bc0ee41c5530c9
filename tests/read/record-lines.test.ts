import { describe, expect, it } from 'vitest';
import { recordLines, textOnDisk } from '../../src/read/place.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

describe('the lines of records', () => {
  it('are those of their keys, in files of any layout', async () => {
    const folder = tempStudio({
      'sales.yaml':
        '# Sales\n\ns1:\n  date: 2026-01-01\n\n# of the fair\ns2:\n  date: 2026-01-02\n',
      'used/a.yaml': '"u1":\r\n  date: 2026-01-01\r\nu2:\r\n  date: 2026-01-01\r\n',
    });
    const lines = await recordLines(
      (file) => textOnDisk(folder, file),
      [
        { id: 's2', file: 'sales.yaml' },
        { id: 'u1', file: 'used/a.yaml' },
        { id: 's1', file: 'sales.yaml' },
        { id: 'u2', file: 'used/a.yaml' },
      ],
    );
    expect(Object.fromEntries(lines)).toEqual({ s1: 3, s2: 7, u1: 1, u2: 3 });
  });

  it('are none where the file is gone', async () => {
    const lines = await recordLines(() => undefined, [{ id: 's1', file: 'sales.yaml' }]);
    expect(lines.size).toBe(0);
  });
});
