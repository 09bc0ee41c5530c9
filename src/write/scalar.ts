/** How one text is written as a YAML scalar: plain where that is safe, else with as few quotes as will do. */
import { isCoreValue, isPlainNumber } from '../read/core-value.ts';

/** The two kinds of quotes that a scalar can stand in. */
export type Quotes = 'single' | 'double';

/** Where a scalar stands and what its field holds: decides whether it may go without quotes. */
export interface ScalarPlace {
  /** Whether the field holds a number, so that a number goes without quotes. */
  readonly number: boolean;
  /** Whether it stands inside `{ }` or `[ ]`, where commas and brackets need quotes. */
  readonly inFlow: boolean;
  /** Quotes that it keeps even where none are needed; double ones step in where single can't hold it. */
  readonly quotes?: Quotes | undefined;
  /** Whether it is for a screen, where all that can't be seen is to be escaped. */
  readonly onScreen?: boolean | undefined;
}

// Not in the core schema, but readers are about that take these for numbers as well.
const NUMBER_ELSEWHERE = /^[-+]?(?:\d[\d_]*(?:\.[\d_]*)?|0[box][\da-fA-F_]+)$/;

// A plain scalar starts with no indicator, holds no `: ` or ` #` and doesn't end with a colon or a
// blank (YAML 1.2.2, section 7.3.3). A hyphen in front is left to the quotes: one blank makes it a list.
const PLAIN =
  /^(?![\s\-?:,[\]{}#&*!|>'"%@`=<.])(?!.*(?::(?:\s|$)|\s#))[^\n]*\S$|^[^\s\-?:,[\]{}#&*!|>'"%@`=<.]$/u;
const FLOW_INDICATOR = /[,[\]{}]/;
// Controls, line and paragraph separators, bidirectional overrides, the byte order mark, lone
// surrogates and non-characters: none may stand raw in a file that people read.
const UNPRINTABLE =
  // eslint-disable-next-line no-control-regex -- the controls are what is looked for
  /[\u0000-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069\ufeff\ufffe\uffff]|\p{Surrogate}/gu;

// Joiners, variation selectors and the like besides, which are left in a file: emoji are made of them.
const UNSEEN = new RegExp(
  `${UNPRINTABLE.source}|[\\p{Cf}\\p{Default_Ignorable_Code_Point}]`,
  UNPRINTABLE.flags,
);

const SHORT_ESCAPES: Readonly<Record<string, string>> = {
  '\n': '\\n',
  '\t': '\\t',
  '\r': '\\r',
};

/**
 * Whether the text holds nothing that has to be written as an escape, in a file or on a screen; line
 * breaks count as such.
 */
export function isPrintable(text: string, onScreen = false): boolean {
  return text.search(onScreen ? UNSEEN : UNPRINTABLE) < 0;
}

/**
 * The text as a scalar on one line, never folded: plain, in single quotes, or in double quotes
 * where something has to be escaped.
 */
export function scalarText(text: string, place: ScalarPlace): string {
  const isDouble = place.quotes === 'double' || !isPrintable(text, place.onScreen);
  if (isDouble) return doubleQuoted(text, place.onScreen ? UNSEEN : UNPRINTABLE);
  if (place.quotes === 'single' || !standsPlain(text, place)) return singleQuoted(text);
  return text;
}

function standsPlain(text: string, place: ScalarPlace): boolean {
  if (isPlainNumber(text)) return place.number;
  if (isCoreValue(text) || NUMBER_ELSEWHERE.test(text)) return false;
  return PLAIN.test(text) && !(place.inFlow && FLOW_INDICATOR.test(text));
}

function singleQuoted(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

function doubleQuoted(text: string, signs: RegExp): string {
  const inner = text.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replace(signs, escaped);
  return `"${inner}"`;
}

function escaped(sign: string): string {
  const code = (sign.codePointAt(0) ?? 0).toString(16);
  const whole = code.length > 4 ? `\\U${code.padStart(8, '0')}` : `\\u${code.padStart(4, '0')}`;
  return SHORT_ESCAPES[sign] ?? whole;
}
