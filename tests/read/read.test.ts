import { rmSync, writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readStudio } from '../../src/read/read.ts';
import { folderWith } from './support/folder.ts';
import { sure } from './support/outline.ts';
import { FILES, STUDIO, UNREMEMBERED, read } from './support/studio.ts';

const SOLD = { channel: 'door', lines: [{ for: 'mending', price: '1' }] };

describe('a studio', () => {
  test('is read whole', async () => {
    const reading = await read(folderWith(STUDIO), UNREMEMBERED);
    expect(reading.files.map(({ file, kind, known }) => [file, kind, known])).toEqual([
      ['sales/2026-03.yaml', 'sales', undefined],
      ['sales/2026-04.yaml', 'sales', undefined],
      ['spent.yaml', 'spent', undefined],
      ['studio.yaml', 'studio', undefined],
    ]);
    expect(JSON.parse(JSON.stringify(reading.files.map(({ root }) => root)))).toEqual([
      { s1: { date: '2026-03-08', ...SOLD }, s2: { date: '2026-03-09', ...SOLD } },
      { s3: { date: '2026-04-01', channel: 'door', lines: [{ for: 'a', price: '1' }] } },
      {
        x1: {
          date: '2026-03-01',
          to: 'A',
          for: 'bank',
          amount: '12.50',
          note: 'two\nlines\n',
        },
      },
      { format: '1', name: 'Kiln Lane', currency: 'EUR' },
    ]);
    expect(reading.findings).toEqual([]);
  });

  test('with bad files is read as far as they are good', async () => {
    const folder = folderWith({
      ...STUDIO,
      'sale.yaml': '',
      'sales/2026-05.yaml': 's5:\n  note: "x\ns6:\n  date: 2026-05-01\n',
      'bought.yaml': 'b1: \xff\n',
      'used.yaml': '#'.repeat(6_000_000),
    });
    writeFileSync(`${folder}/bought.yaml`, Uint8Array.of(0x61, 0xff));
    const { files, findings, strays } = await read(folder);
    expect(files.map(({ file }) => file)).toEqual([...FILES, 'sales/2026-05.yaml'].sort());
    expect(Object.keys(files.find(({ file }) => file === 'sales/2026-05.yaml')!.root)).toEqual([
      's6',
    ]);
    expect(findings.map(({ rule, at }) => `${rule} ${at.file}`).sort()).toEqual([
      'unreadable-file bought.yaml',
      'unreadable-file used.yaml',
      'yaml-error sales/2026-05.yaml',
    ]);
    expect(strays).toEqual([{ file: 'sale.yaml', suggestion: 'sales.yaml' }]);
  });

  test('of some kinds only', async () => {
    const part = sure(await readStudio(folderWith(STUDIO), { ...UNREMEMBERED, kinds: ['spent'] }));
    expect(part.files.map(({ file }) => file)).toEqual(['spent.yaml', 'studio.yaml']);
  });

  test('that is gone is refused', async () => {
    const folder = folderWith({});
    rmSync(folder, { recursive: true });
    expect(await readStudio(folder, UNREMEMBERED)).toEqual({
      refused: `the folder ${folder} can't be read: it is not there any more`,
    });
  });

  test("knows what a core reader sees, of both readers' files", async () => {
    const folder = folderWith({
      'sales.yaml': 's1: {lot: 04, price: "4"}\n',
      'spent.yaml': 'x1:\n  lot: 04\n  note: |\n    4\n',
    });
    const { coreOf, files } = await read(folder);
    expect(files.map(({ odd }) => odd)).toEqual([true, true]);
    expect(
      JSON.parse(JSON.stringify([coreOf('sales.yaml')?.root, coreOf('spent.yaml')?.root])),
    ).toEqual([{ s1: { lot: 4, price: '4' } }, { x1: { lot: 4, note: '4\n' } }]);
    expect(coreOf('sales.yaml')?.text(['s1', 'lot'])).toBe('04');
    expect(coreOf('none.yaml')).toBeUndefined();
  });
});
