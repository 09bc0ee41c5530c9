/** What is typed wrong is said again so that it can't act on the terminal. */
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/commands/catalogue.ts';
import { flagOf, valueName } from '../../src/commands/spec.ts';
import { HOSTILE as WORSE } from '../helpers/hostile-studio.ts';
import { emptyFolder, runSaggar } from '../helpers/program.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { some } from '../helpers/tier.ts';

/** An escape that clears a screen, a bidi override, a zero-width space, a line end and a bell. */
const HOSTILE = 'mug\u001b[2J\u202e\u200b\n\u0007';
const ACTING = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

function actingIn(text: string): string[] {
  return text.split('\n').filter((line) => ACTING.test(line));
}

const REPORTS = COMMANDS.filter(({ options }) =>
  options.some(({ flags }) => flags.startsWith('--as ')),
);

const OPTIONS = REPORTS.flatMap(({ name, options }) =>
  options
    .filter((option) => valueName(option) !== undefined)
    .filter((option) => !['--as', '--studio'].includes(flagOf(option)))
    .map((option) => [name, flagOf(option)] as const),
);

function keyOf(flag: string): string {
  return flag.slice(2).replace(/-(.)/g, (_, letter: string) => letter.toUpperCase());
}

/** Days are for the value of materials. */
function spanned(flag: string): Record<string, boolean> {
  return ['--from', '--to', '--year'].includes(flag) ? { where: true } : {};
}

describe('a hostile word', () => {
  it.each(some(OPTIONS, 30))('for %s %s does not reach the terminal raw', async (name, flag) => {
    const { status, complaints, out } = await runCommand(
      name,
      { ...spanned(flag), [keyOf(flag)]: HOSTILE },
      name === 'review' ? { argument: 'main' } : {},
    );
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(complaints).toContain('mug\\u{1B}[2J\\u{202E}\\u{200B}\\u{A}\\u{7}');
    expect(actingIn(complaints)).toEqual([]);
    expect(complaints.split('\n')).toHaveLength(2);
  });

  const named = REPORTS.filter(({ argument }) => argument).map(({ name }) => name);

  it.each([...named, 'amend', 'remove', 'unload', 'add', 'init'])(
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
