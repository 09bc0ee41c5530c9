import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { remove } from '../../src/commands/records/remove.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { inGit } from '../helpers/git.ts';
import { runShell } from '../helpers/program.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

describe('the way back', () => {
  const words = ['used', '--material', 'kaolin', '--quantity', '1 kg'];
  const USED = 'used/2026-05.yaml';
  const OLD = { [USED]: 'u1:\n  date: 2026-05-01\n  material: kaolin\n  quantity: 2 kg\n' };

  function back({ out }: Said): string {
    return /To take it back: (.*)\n/.exec(out)?.[1] ?? 'false';
  }

  it.each([
    ['a new file', {}],
    ['a file that git knows', OLD],
  ])('of %s leads back to the very bytes', async (_, files) => {
    const folder = inGit(small(files));
    const before = filesIn(folder);
    const command = back(await run(add, folder, { words }));
    expect(filesIn(folder)).not.toEqual(before);
    expect(spawnSync('sh', ['-c', command], { cwd: folder }).status).toBe(0);
    expect(filesIn(folder)).toEqual(before);
  });

  it('leads back from elsewhere too, whatever the folder is called', async () => {
    const outer = tempStudio(
      Object.fromEntries(
        Object.entries({ ...SMALL_STUDIO, ...OLD }).map(([file, text]) => [
          `my "pots"/${file}`,
          text,
        ]),
      ),
    );
    const folder = inGit(join(outer, 'my "pots"'));
    const before = filesIn(folder);
    for (const from of [outer, join(folder, 'used'), folder, '/']) {
      const options = from === folder || from.endsWith('used') ? {} : { studio: folder };
      const command = back(await run(add, folder, { words, from, options }));
      expect(spawnSync('sh', ['-c', command], { cwd: from }).status).toBe(0);
      expect(filesIn(folder)).toEqual(before);
    }
  });

  it('is none of git where it would take more with it', async () => {
    const folder = inGit(small(OLD));
    writeFileSync(join(folder, USED), `${OLD[USED]}  note: not yet committed\n`);
    expect(back(await run(add, folder, { words }))).toBe('saggar remove u260501bb');
    const untracked = inGit(small());
    writeFileSync(join(untracked, 'used.yaml'), OLD[USED]);
    expect(back(await run(add, untracked, { words }))).toBe('saggar remove u260501bb');
  });

  it('is of this program where there is no git', async () => {
    const folder = small(OLD);
    const before = filesIn(folder);
    const command = back(await run(add, folder, { words, options: { studio: folder } }));
    expect(command).toBe(`saggar remove u260501bb --studio ${folder}`);
    await run(remove, folder, { words: ['u260501bb'] });
    expect(filesIn(folder)).toEqual(before);
  });

  it('of an amendment without git is the amendment back', async () => {
    const folder = small();
    const said = await run(amend, folder, { words: ['s260402cd', 'buyer=', 'lines.0.price=40'] });
    const command = back(said);
    expect(command).toBe('saggar amend s260402cd "buyer=Puddle Coffee" lines.0.price=36');
    await run(amend, folder, { words: ['s260402cd', 'lines.0.price=36'] });
    expect(filesIn(folder)['sales/2026-04.yaml']).toBe(
      SMALL_STUDIO['sales/2026-04.yaml']?.replace('  buyer: Puddle Coffee\n', ''),
    );
  });

  const ACTING = 'a\u001b[2J\u001b]52;c;aGk=\u0007\r\n\u202e\u200b\u009b1m\u{e0041} 釉\'"\\!$(id)`';

  it('of a text that acts on a terminal is typed in signs that do not, and leads back to it', async () => {
    const folder = small();
    await run(amend, folder, { words: ['s260402cd', `buyer=${ACTING}`] });
    const before = filesIn(folder);
    const { out } = await run(amend, folder, { words: ['s260402cd', 'buyer=x'] });
    expect(out.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    expect(back({ out, err: '', status: 0 })).toMatch(
      /^saggar amend s260402cd \$'[\x20-\x7e釉]*'$/,
    );
    const again = back({ out, err: '', status: 0 });
    expect(filesIn(folder)).not.toEqual(before);
    expect(await runShell(['bash', '-c'], again, { folder })).toMatchObject({ status: 0, err: '' });
    expect(filesIn(folder)).toEqual(before);
  });

  it('is left out where no command line can hold the text', async () => {
    const sales = SMALL_STUDIO['sales/2026-04.yaml'] ?? '';
    const files = { 'sales/2026-04.yaml': sales.replace('Puddle Coffee', '"a\\0b"') };
    const { out } = await run(amend, small(files), { words: ['s260402cd', 'buyer=x'] });
    expect(out).toContain('Amended s260402cd');
    expect(out).not.toContain('To take it back');
  });
});
