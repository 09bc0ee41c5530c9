import { chmodSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/add.ts';
import { amend } from '../../src/commands/amend.ts';
import { remove } from '../../src/commands/remove.ts';
import type { Command } from '../../src/commands/world.ts';
import { run } from '../helpers/command-world.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';

describe('a write that fails', () => {
  const cases: readonly (readonly [string, Command<never>, readonly string[]])[] = [
    ['amend', amend, ['s260402cd', 'buyer=X']],
    ['remove', remove, ['s260402cd']],
    ['add', add, ['sales', '--channel', 'market', '--line', '1 mug', '--date', '2026-04-29']],
  ];

  // A superuser may write everything, so that there is nothing to see.
  it.skipIf(process.getuid?.() === 0).each(cases)(
    '%s leaves all as it was',
    async (...[, command, words]) => {
      const folder = small();
      chmodSync(join(folder, 'sales/2026-04.yaml'), 0o444);
      const { status, err } = await run(command, folder, { words });
      expect(status).toBe(1);
      expect(err).toContain('nothing was written: sales/2026-04.yaml');
      expect(filesIn(folder)).toEqual(SMALL_STUDIO);
    },
  );

  it('is said where the file changed meanwhile', async () => {
    const folder = small();
    const told = { words: ['sales'], input: 'channel: market\nlines: [1 mug]\ndate: 2026-04-29\n' };
    const racing: typeof add = async (asked, world) =>
      add(asked, {
        ...world,
        write: (text) => {
          rmSync(join(folder, 'sales/2026-04.yaml'), { force: true });
          world.write(text);
        },
      });
    const { status, err } = await run(racing, folder, told);
    expect(status).toBe(1);
    expect(err).toContain('sales/2026-04.yaml is gone since it was read');
    expect(err).toContain('# Nothing was written');
  });
});
