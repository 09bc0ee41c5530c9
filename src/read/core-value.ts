/** What an unquoted scalar means to a reader that keeps to the YAML 1.2 core schema. */

// YAML 1.2.2, section 10.3.2 (core schema, tag resolution).
const NULL = /^(?:~|null|Null|NULL)?$/;
const BOOLEAN = /^(?:true|True|TRUE|false|False|FALSE)$/;
const INTEGER = /^(?:[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+)$/;
const FLOAT = /^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$/;
const INFINITE = /^[-+]?\.(?:inf|Inf|INF)$/;
const NOT_A_NUMBER = /^\.(?:nan|NaN|NAN)$/;
const ANY = new RegExp(
  [NULL, BOOLEAN, INTEGER, FLOAT, INFINITE, NOT_A_NUMBER].map(({ source }) => source).join('|'),
);
// No other value goes on like this: dates, times, quantities and percentages are soon ruled out.
const DIGITS_AND_MORE = /^[0-9]+[^0-9.eExo]/;

/** Whether a core reader takes an unquoted text for something else than that text. */
export function isCoreValue(text: string): boolean {
  return !DIGITS_AND_MORE.test(text) && ANY.test(text);
}

/** Whether a core reader takes an unquoted text for a number written in decimal digits. */
export function isPlainNumber(text: string): boolean {
  return FLOAT.test(text);
}

/** The value that a core reader sees in an unquoted text: null, a boolean, a number, else the text. */
export function coreValue(text: string): unknown {
  if (!ANY.test(text)) return text;
  if (NULL.test(text)) return null;
  if (BOOLEAN.test(text)) return text.toLowerCase() === 'true';
  if (INFINITE.test(text)) return text.startsWith('-') ? -Infinity : Infinity;
  // `Number` knows the forms 0o17, 0x1f, 1., .5 and 1e3; a text that is no number gives NaN.
  return Number(text);
}
