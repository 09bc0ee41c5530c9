/** Text for a manual page in roff, with the macros of man: no word of it is ever taken for a command. */
import { visible } from './escape.ts';

/**
 * A text as roff shows it: signs that roff would act on are written out, as is whatever lies outside
 * ASCII, so that a page needs no word on its encoding. Line ends become spaces.
 */
export function roffText(text: string): string {
  return visible(text.replaceAll('\n', ' '))
    .replaceAll('\\', '\\e')
    .replace(/["'`^~-]/g, (sign) => ESCAPES[sign] ?? sign)
    .replace(/[^\x20-\x7e]/gu, codePoint)
    .replace(/^\./, '\\&.');
}

// What roff would turn into a typographic sign, or end a macro's argument with.
const ESCAPES: Readonly<Record<string, string>> = {
  '"': '\\(dq',
  "'": '\\(aq',
  '`': '\\(ga',
  '^': '\\(ha',
  '~': '\\(ti',
  '-': '\\-',
};

function codePoint(sign: string): string {
  return `\\[u${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}]`;
}

/** A macro with one argument: `.SH "EXIT STATUS"`. */
export function roffMacro(macro: string, argument: string): string {
  return `.${macro} "${roffText(argument)}"`;
}

/** Lines that stand as they are, as on a terminal, a little indented. */
export function roffVerbatim(lines: readonly string[]): string[] {
  return ['.RS 2', '.EX', ...lines.map(roffText), '.EE', '.RE'];
}

/** A paragraph behind a label: `.TP`. */
export function roffItem(label: string, text: string): string[] {
  return ['.TP', roffMacro('B', label), roffText(text)];
}
