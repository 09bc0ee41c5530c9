/** Text that may go out to a terminal or a file: a type of its own, which only these functions make, by escaping. */
import { visible, visibleLayout } from './escape.ts';
import { isPainted } from './paint.ts';

declare const escapedText: unique symbol;

/**
 * Text without a sign that acts on a terminal, but for the line ends, tabs, colours and control
 * sequences that are the program's own. A plain text does not pass for one.
 */
export type Printable = string & { readonly [escapedText]: true };

/**
 * Words of ours with values in them: what stands in the template goes out as it is; whatever is put
 * into it is one line's words, so that signs which act in it, line ends too, are written out.
 */
export function printed(
  fixed: TemplateStringsArray,
  ...values: readonly (string | number)[]
): Printable {
  const texts = values.map((value, at) => visible(String(value)) + (fixed[at + 1] ?? ''));
  return ((fixed[0] ?? '') + texts.join('')) as Printable;
}

/** Lines of words, each with a line end; line ends in them are written out. */
export function printedLines(lines: readonly string[]): Printable {
  return lines.map((line) => `${visible(line)}\n`).join('') as Printable;
}

/**
 * A text that is laid out already: its line ends and tabs stay, and where it may be painted the
 * colours of `paints`. Values in it have been escaped as its format wants it; what is left that acts
 * is written out.
 */
export function printedLayout(
  text: string,
  { colour }: { readonly colour: boolean } = { colour: false },
): Printable {
  return visibleLayout(text, (sequence) => colour && isPainted(sequence)) as Printable;
}

/** Texts behind each other. */
export function together(texts: readonly Printable[]): Printable {
  return texts.join('') as Printable;
}
