/**
 * Terminal colours, used sparingly: nothing is said by colour alone. Red and magenta are the only ones of the
 * usual palettes that are read on light and on dark grounds alike (from memory); yellow on white is not.
 */

/** Paints a text, or leaves it as it is. */
export type Paint = (text: string) => string;

export interface Paints {
  readonly strong: Paint;
  readonly quiet: Paint;
  readonly error: Paint;
  readonly warning: Paint;
}

function paint(on: number, off: number): Paint {
  return (text) => (text === '' ? '' : `\u001b[${on}m${text}\u001b[${off}m`);
}

/** Paints nothing. */
export function plainly(text: string): string {
  return text;
}

const COLOURED: Paints = {
  strong: paint(1, 22),
  quiet: paint(2, 22),
  error: paint(31, 39),
  warning: paint(35, 39),
};

const UNCOLOURED: Paints = { strong: plainly, quiet: plainly, error: plainly, warning: plainly };

/** The paints for a terminal with or without colour (ECMA-48 SGR codes). */
export function paints(colour: boolean): Paints {
  return colour ? COLOURED : UNCOLOURED;
}

// eslint-disable-next-line no-control-regex -- the sequence's own sign
const SEQUENCE = /^\u001b\[(?:1|2|22|31|35|39)m$/;

/** Whether a control sequence is one that the paints make. */
export function isPainted(sequence: string): boolean {
  return SEQUENCE.test(sequence);
}
