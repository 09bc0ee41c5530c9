/** Asks shells to complete a line, each with the script that the program prints for it. */
import { expect } from 'vitest';
import { EXAMPLE, emptyFolder, runSaggar, runShell } from './program.ts';

/** What a shell has in a file before it is asked. */
export async function script(shell: string): Promise<string> {
  const { out, status, err } = await runSaggar(['completion', shell]);
  expect({ status, err }).toEqual({ status: 0, err: '' });
  return out;
}

export interface Line {
  readonly folder?: string;
  /** What bash says of the key: 9 completes, 63 lists. */
  readonly type?: number;
  readonly env?: Record<string, string>;
}

/** What bash offers for a line that is parted into words as bash parts it. */
export async function inBash(
  parts: readonly string[],
  line: string,
  options: Line = {},
): Promise<string[]> {
  const { folder = EXAMPLE, type = 9, env = {} } = options;
  const driver = `${await script('bash')}
COMP_WORDS=(${parts.map(quoted).join(' ')}) COMP_CWORD=${parts.length - 1}
COMP_LINE=${quoted(line)} COMP_POINT=\${#COMP_LINE} COMP_TYPE=${type}
$(complete -p saggar | sed 's/.*-F \\([^ ]*\\).*/\\1/') saggar
printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { out, err } = await runShell(['bash', '-c'], driver, { folder, env });
  expect(err).toBe('');
  return lines(out);
}

export function quoted(word: string): string {
  return `'${word.replaceAll("'", `'\\''`)}'`;
}

export function lines(text: string): string[] {
  return text.split('\n').filter((line) => line !== '');
}

/** The same for a line without quotes or signs that part words. */
export function bash(line: string, options?: Line): Promise<string[]> {
  return inBash(line.split(' '), line, options);
}

/** What the script hands to zsh: the words, and what they are shown as. */
export async function zsh(words: readonly string[], folder = EXAMPLE): Promise<string[]> {
  const current = words.at(-1) ?? '';
  const driver = `
compdef() { :; }
compset() { print -r -- "compset $*"; }
_files() { print -r -- "_files $*"; }
compadd() { print -rl -- "options \${(j:|:)@}" $replies; print -rl -- $shown; }
${await script('zsh')}
words=(${words.map(quoted).join(' ')}) CURRENT=${words.length} PREFIX=${quoted(current)}
_saggar`;
  const { out, err } = await runShell(['zsh', '-f', '-c'], driver, { folder });
  expect(err).toBe('');
  return lines(out);
}

/** What fish offers for a line: words, a tab, and what they are. */
export async function fish(line: string, folder = EXAMPLE): Promise<string[]> {
  const home = emptyFolder();
  const driver = `${await script('fish')}\ncomplete -C ${quoted(line)}`;
  const { out, err } = await runShell(['fish', '--no-config', '-c'], driver, {
    folder,
    env: { HOME: home, LC_ALL: 'C.UTF-8' },
  });
  expect(err).toBe('');
  return lines(out);
}
