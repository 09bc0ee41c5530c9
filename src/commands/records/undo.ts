/** The exact commands that undo a change. */
import type { UndoStep } from '../../entry/undoing/undo.ts';
import { visible, visibleLayout } from '../../render/escape.ts';
import type { FindingOptions } from '../options.ts';

/** The commands that undo a change, as they are pasted into a shell: on one line, or with texts below each. */
export function undoText(
  options: Pick<FindingOptions, 'studio'>,
  steps: readonly UndoStep[],
): string {
  const last = steps.length - 1;
  const commands = steps.map(({ words, given }, index) => {
    const command = saggarCommand(options, words.map(shellQuoted).join(' '));
    const then = index < last ? ' &&' : '';
    return given === undefined ? `${command}${then}` : withInput(command, given, then);
  });
  const isShort = steps.every(({ given }) => given === undefined);
  return isShort ? commands.join(' ') : commands.map((command) => `\n${command}`).join('');
}

/** A command with a text on standard input: below it, or where a shell would not take it so, in quotes. */
function withInput(command: string, text: string, then: string): string {
  const isPlain = text.endsWith('\n') && visibleLayout(text, () => false) === text;
  if (!isPlain) return `${printing(text)} | ${command}${then}`;
  const lines = text.split('\n');
  const end =
    ['END', 'END-OF-RECORD'].find((word) => !lines.includes(word)) ?? `END-${text.length}`;
  return `${command} <<'${end}'${then}\n${text}${end}`;
}

/** A command of this program, for the same studio. */
export function saggarCommand({ studio }: Pick<FindingOptions, 'studio'>, words: string): string {
  return `saggar ${words}${studio === undefined ? '' : ` --studio ${shellQuoted(studio)}`}`;
}

/**
 * A word as a shell takes it whole; in double quotes where these read easier. Signs that act or can't
 * be seen are written as bytes that `printf` makes again, but for a line end that comes last, which any
 * `$( )` loses: between `$'` and `'`, which not every shell knows.
 */
export function shellQuoted(word: string): string {
  if (visible(word) !== word)
    return word.endsWith('\n')
      ? `$'${Array.from(word, inBytes).join('')}'`
      : `"$(${printing(word)})"`;
  if (/^[\w./@%+=:,-]+$/.test(word)) return word;
  return /["$`\\!]/.test(word) ? `'${word.replaceAll("'", `'\\''`)}'` : `"${word}"`;
}

/** What prints a text byte by byte, in any shell. */
function printing(text: string): string {
  const format = Array.from(text, inBytes).join('').replaceAll('%', '%%').replace(/^-/, '\\055');
  return `printf '${format}'`;
}

// Octal, since a shell may take more digits than two of a hexadecimal number.
function inBytes(sign: string): string {
  if (sign === '\n') return '\\n';
  if (visible(sign) === sign && !/['\\!]/.test(sign)) return sign;
  const bytes = [...Buffer.from(sign)];
  return bytes.map((byte) => `\\${byte.toString(8).padStart(3, '0')}`).join('');
}
