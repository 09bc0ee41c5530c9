import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMPLETE_WORDS } from '../../src/commands/catalogue.ts';
import { demoCopy, emptyFolder, runSaggar } from '../helpers/program.ts';
import { bash } from '../helpers/shell-completion.ts';

describe('whatever the book holds', () => {
  /** A studio that an attacker wrote: ids and names that act on a shell or a terminal. */
  function hostile(): string {
    const folder = demoCopy();
    const names = ['$(touch hurt)', '`touch hurt`', '\\u001b[31mred', 'a\\ttab', '\\u202eback'];
    const records = names.map(
      (name, at) => `z${at}:\n  name: "${name}"\n  kind: dry\n  unit: kg\n`,
    );
    const ids = ['"z$(touch hurt)"', '"z;touch hurt"', '"z\\u001b[31m"'];
    const badIds = ids.map((id) => `${id}:\n  name: X\n  kind: dry\n  unit: kg\n`);
    mkdirSync(join(folder, 'materials'));
    writeFileSync(join(folder, 'materials/hostile.yaml'), [...records, ...badIds].join(''));
    return folder;
  }

  it('answers are ids, and no sign in them acts on a terminal', async () => {
    const folder = hostile();
    const { out } = await runSaggar([COMPLETE_WORDS.name, '--', 'materials', 'z'], { folder });
    expect(out).toBe(
      [
        'words',
        'zircon\tmaterial Zirconium silicate',
        'z0\tmaterial $(touch hurt)',
        'z1\tmaterial `touch hurt`',
        'z2\tmaterial \\u{1B}[31mred',
        'z3\tmaterial a\\u{9}tab',
        'z4\tmaterial \\u{202E}back',
        '',
      ].join('\n'),
    );
  });

  it('so are the ids in a line of several values', async () => {
    const folder = hostile();
    const words = ['--', 'add', 'bought', '--line', '5 kg z'];
    const { out } = await runSaggar([COMPLETE_WORDS.name, ...words], { folder });
    const ids = out.split('\n').map((line) => line.split('\t')[0]);
    expect(ids).toEqual([
      ...['words', '5 kg zircon', '5 kg z0', '5 kg z1', '5 kg z2', '5 kg z3', '5 kg z4', ''],
    ]);
    // eslint-disable-next-line no-control-regex
    expect(out).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u202e]/);
  });

  it('nothing of it is run by a shell', async () => {
    const folder = hostile();
    expect(await bash('saggar materials z', { folder, type: 63 })).toHaveLength(6);
    expect(await bash("saggar materials '$(touch hurt)", { folder })).toEqual([]);
    expect(existsSync(join(folder, 'hurt'))).toBe(false);
  });

  it.each([
    [['materials', '']],
    [['--studio', '/nowhere', 'materials', '']],
    [['materials', '--studio', '', '']],
    [['materials', '--studio=/nowhere/at/all', 'k']],
    [['\u001b[31m']],
    [[]],
    [['--']],
    [['amend', 'nobody', 'x']],
    [['amend', 's260630db', 'constructor=']],
    [['add', '__proto__', '--']],
  ])('%j without a studio is answered without a complaint', async (words) => {
    const folder = emptyFolder();
    const { status, err, out } = await runSaggar([COMPLETE_WORDS.name, '--', ...words], { folder });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^(?:words|folders|beginnings)\n/);
  });

  it('many answers are told by how they begin', async () => {
    const { out } = await runSaggar([COMPLETE_WORDS.name, '--', 'remove', '']);
    const [first, ...answers] = out.trimEnd().split('\n');
    expect(first).toBe('beginnings');
    expect(answers.length).toBeGreaterThan(20);
    expect(answers.length).toBeLessThanOrEqual(100);
    expect(answers).toContain('gallery\tchannel Mizzle House Gallery');
    expect(answers.filter((answer) => /^s26\d?\t\d+ that begin so$/.test(answer))).not.toEqual([]);
  });

  it('a broken file is passed over in silence', async () => {
    const folder = demoCopy();
    writeFileSync(join(folder, 'recipes.yaml'), 'a: [\n');
    const { status, err, out } = await runSaggar([COMPLETE_WORDS.name, '--', 'materials', 'kao'], {
      folder,
    });
    expect({ status, err, out }).toEqual({
      status: 0,
      err: '',
      out: 'words\nkaolin\tmaterial Kaolin\n',
    });
  });
});
