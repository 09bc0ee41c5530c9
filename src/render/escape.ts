/** Keeps text from the book from acting on a terminal, a page or a sheet: signs that act are shown. */

const PLAIN = /^[\x20-\x7e]*$/;
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
  return PLAIN.test(text) ? text : text.replace(HIDDEN, codePoint);
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
