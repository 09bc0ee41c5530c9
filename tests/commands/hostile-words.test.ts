/** What is typed wrong is said again so that it can't act on the terminal. */
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { loadCommand } from '../../src/commands/load.ts';
import { flagOf, valueName, type CommandSpec } from '../../src/commands/spec.ts';
import { run } from '../helpers/command-world.ts';
import type { Asked } from '../../src/commands/world.ts';
import { HOSTILE as WORSE } from '../helpers/hostile-studio.ts';
import { emptyFolder, runSaggar } from '../helpers/program.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';
import { some } from '../helpers/tier.ts';

/** An escape that clears a screen, a bidi override, a zero-width space, a line end and a bell. */
const HOSTILE = 'mug\u001b[2J\u202e\u200b\n\u0007';
const ACTING = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

function actingIn(text: string): string[] {
  return text.split('\n').filter((line) => ACTING.test(line));
}

/** The commands that change records, with words after which each looks at its options. */
const WRITING: Readonly<Record<string, readonly string[]>> = {
  tidy: [],
  add: ['spent', '--to', 'Paper Corner', '--for', 'office', '--amount', '12'],
  unload: ['f260702kt'],
  gone: ['1 mug oatmeal'],
  revise: ['sea-green', 'rutile 2.5%'],
  amend: ['s260630db', 'paid=2026-07-01'],
  'take-in': ['list.csv'],
  remove: ['s260627ah'],
};

const BESIDE: Readonly<Record<string, Asked['options']>> = {
  gone: { why: 'gift' },
  unload: { line: ['20 first'] },
};

/** What the others can't do without. */
const NAMED: Readonly<Record<string, readonly string[]>> = {
  match: ['list.csv'],
  paper: ['receipt', 's260628ce'],
  review: ['main'],
  show: ['mug'],
  trace: ['CB3281'],
  weigh: ['sea-green', '200', 'g'],
  'paper --buyer': ['owed', 'hobbin-lane'],
  'paper --label-sheet': ['labels', '12 mug oatmeal'],
  'paper --series': ['invoice', 's260617ku'],
  'paper --start': ['labels', '12 mug oatmeal'],
};

const REPORTS = COMMANDS.filter(
  ({ name, options }) =>
    name !== 'init' && !(name in WRITING) && options.some(({ flags }) => flags.startsWith('--as ')),
);

function optionsOf(commands: readonly CommandSpec[]): (readonly [string, string])[] {
  return commands.flatMap(({ name, options }) =>
    options
      .filter((option) => valueName(option) !== undefined)
      .filter((option) => !['--as', '--studio'].includes(flagOf(option)))
      .map((option) => [name, flagOf(option)] as const),
  );
}

function keyOf(flag: string): string {
  return flag.slice(2).replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());
}

function isRepeated(name: string, flag: string): boolean {
  const spec = COMMANDS.find((each) => each.name === name);
  return spec?.options.find((option) => flagOf(option) === flag)?.repeats === true;
}

/** What an option is only looked at with. */
const WITH: Readonly<Record<string, Asked['options']>> = {
  '--series': { number: true, dryRun: true },
  '--steps': { blend: 'linen' },
};

/** Days are for the value of materials. */
function spanned(flag: string): Record<string, boolean> {
  return ['--from', '--to', '--year'].includes(flag) ? { where: true } : {};
}

describe('a hostile word', () => {
  it.each(some(optionsOf(REPORTS), 30))(
    'for %s %s does not reach the terminal raw',
    async (name, flag) => {
      const [argument, ...more] = NAMED[`${name} ${flag}`] ?? NAMED[name] ?? [];
      const { status, complaints, out } = await runCommand(
        name,
        { ...spanned(flag), ...WITH[flag], [keyOf(flag)]: HOSTILE },
        argument === undefined ? {} : { argument, more },
      );
      expect({ status, out }).toEqual({ status: 2, out: '' });
      expect(complaints).toContain('mug\\u{1B}[2J\\u{202E}\\u{200B}\\u{A}\\u{7}');
      expect(actingIn(complaints)).toEqual([]);
      expect(complaints.split('\n')).toHaveLength(2);
    },
  );

  it.each(['--name', '--currency', '--weight-unit', '--with'])(
    'for init %s does not reach the terminal raw',
    async (flag) => {
      const { out, err } = await run(await loadCommand('init'), emptyFolder(), {
        options: { [keyOf(flag)]: HOSTILE },
      });
      expect(out + err).not.toBe('');
      expect(actingIn(out + err)).toEqual([]);
    },
  );

  const changing = optionsOf(COMMANDS.filter(({ name }) => name in WRITING));

  it.each(changing)('for %s %s is neither said nor written raw', async (name, flag) => {
    const folder = exampleCopy();
    const input = 'kiln: big-kiln\nkind: bisque\nload: ["20 for the school\'s tiles"]\n';
    if (name === 'unload')
      await run(await loadCommand('add'), folder, {
        words: ['firings'],
        options: { id: 'f260702kt' },
        input,
        today: '2026-07-02',
      });
    const isBack = flag === '--back-to';
    const { out, err } = await run(await loadCommand(name), folder, {
      words: isBack ? ['spent'] : (WRITING[name] ?? []),
      options: {
        dryRun: true,
        ...BESIDE[name],
        [keyOf(flag)]: isRepeated(name, flag) ? [HOSTILE] : HOSTILE,
      },
      input: isBack ? 'e1:\n  date: 2026-06-01\n' : '',
      today: '2026-07-02',
    });
    expect(out + err).toMatch(/mug\\.*\[2J\\u/);
    expect(actingIn(out + err)).toEqual([]);
  });

  const named = REPORTS.filter(({ argument }) => argument).map(({ name }) => name);

  it.each([...named, 'init', 'add', 'unload', 'gone', 'revise', 'amend', 'remove'])(
    'as the argument of %s does not reach the terminal raw',
    async (name) => {
      const { status, complaints, out } = await runCommand(
        name,
        { dryRun: true, input: false },
        { argument: HOSTILE },
      );
      expect(status).not.toBe(0);
      expect(complaints).toContain('\\u{1B}[2J\\u{202E}\\u{200B}');
      expect(actingIn(complaints + out)).toEqual([]);
    },
  );

  it('is not said raw by a real process, whichever command it is for and wherever it is kept', async () => {
    const folder = emptyFolder();
    const env = { XDG_CACHE_HOME: `${folder}/${WORSE}`, XDG_STATE_HOME: `${folder}/${WORSE}` };
    const names = [...some(COMMANDS, 5).map(({ name }) => name), WORSE];
    // What init makes first is the studio of the others.
    const lines = names.flatMap((name) => [
      [name, WORSE],
      [name, '--studio', WORSE],
      [name, `--${WORSE}`],
    ]);
    for (const words of lines) {
      const { out, err } = await runSaggar(words, { folder, env });
      expect(out + err).not.toBe('');
      expect(actingIn(out + err)).toEqual([]);
      expect(out + err).not.toMatch(/^SPOOF/m);
    }
  });
});
