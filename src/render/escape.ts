/** Keeps text from the book from acting on a terminal, a page or a sheet: signs that act are shown. */

const PLAIN_TEXT = /^[\x20-\x7e]*$/;
const HIDDEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]/gu;

/** Shown by a renderer as nothing; as an entity it parts what would else become a link. */
const PART = '&#8203;';

/** What a spreadsheet may take for the start of a formula, half or full width, after any spaces. */
const FORMULA_START = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]/u;
const NEGATIVE_NUMBER = /^-\d+(?:\.\d+)?$/;

function codePoint(sign: string): string {
  return `\\u{${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase()}}`;
}

/**
 * The text with every sign that can't be seen or that acts on its surroundings written out as
 * `\u{1B}`: controls, bidi marks, zero-width and other ignorable signs (joiners and variation
 * selectors of emoji too), line separators, lone surrogates. Line ends count among them.
 */
export function visible(text: string): string {
  return PLAIN_TEXT.test(text) ? text : text.replace(HIDDEN, codePoint);
}

const LAYOUT = /^[\t\n\x20-\x7e]*$/;
/** A control sequence for the look of text (ECMA-48, SGR), the ends of a line, and any other hidden sign. */
const IN_LAYOUT = new RegExp(`\\u001b\\[\\d+m|\\r\\n|${HIDDEN.source}`, 'gu');
const LINE_ENDS_AND_TAB = ['\n', '\r\n', '\t'];

/**
 * The same for a text that is laid out: line feeds, also with a carriage return before them, and tabs
 * stay, and of the sequences for the look of text those that are vouched for.
 */
export function visibleLayout(text: string, isOwn: (sequence: string) => boolean): string {
  if (LAYOUT.test(text)) return text;
  return text.replace(IN_LAYOUT, (found) =>
    LINE_ENDS_AND_TAB.includes(found) || isOwn(found) ? found : visible(found),
  );
}

function codeUnits(sign: string): string {
  return Array.from({ length: sign.length }, (_, at) => {
    return `\\u${sign.charCodeAt(at).toString(16).padStart(4, '0')}`;
  }).join('');
}

/**
 * The same for a JSON document whose line ends are layout: the signs become `\u001b` inside the
 * strings, so that a reader of the JSON gets back the very text.
 */
export function visibleJson(document: string): string {
  return document.replace(HIDDEN, (sign) => (sign === '\n' ? sign : codeUnits(sign)));
}

/**
 * Text for a GFM document, in a table cell as well as at the start of a line: it renders as it reads
 * here, without markup, entities, mentions, addresses or links to issues. Outer spaces are dropped.
 */
export function escapeMarkdown(text: string): string {
  return visible(text)
    .trim()
    .replace(/[\\`*_~[\]#!|$]/g, '\\$&')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/^[-+]/, '\\$&')
    .replace(/^\d+(?=[.)])/, '$&\\')
    .replace(/@(?=\S)|#(?=\d)|:(?=\/\/)|GH-(?=\d)|www(?=\.)/gi, `$&${PART}`);
}

/**
 * A text cell for CSV: hidden signs shown (so that no cell begins with a tab or a line end), and an
 * apostrophe before what a spreadsheet would run as a formula. A plain negative number is left as
 * it is. Quoting comes after.
 */
export function defuse(text: string): string {
  const shown = visible(text);
  return FORMULA_START.test(shown) && !NEGATIVE_NUMBER.test(shown) ? `'${shown}` : shown;
}
