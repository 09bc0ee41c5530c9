import { chmodSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { run } from '../helpers/command-world.ts';
import { SMALL_STUDIO, TODAY, small } from '../helpers/small-studio.ts';
import { runAsPlainUser } from '../helpers/program.ts';
import { filesIn } from '../helpers/temp-studio.ts';

describe('a write that fails', () => {
  it.each([
    ['amend', 's260402cd', 'buyer=X'],
    ['remove', 's260402cd'],
    ['add', 'sales', '--channel', 'market', '--line', '1 mug', '--date', '2026-04-29'],
  ])('%s leaves all as it was', async (...words) => {
    const folder = small();
    chmodSync(join(folder, 'sales/2026-04.yaml'), 0o444);
    const { status, err } = await runAsPlainUser([...words, '--as-of', TODAY], folder);
    expect(err).toContain('nothing was written: sales/2026-04.yaml');
    expect(status).toBe(1);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

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
    expect(err).toContain('# Not saved');
  });
});
