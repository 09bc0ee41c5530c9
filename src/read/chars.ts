/** Classes of characters for the fast reader, one byte for each UTF-16 code unit. */

/** Part of a word, a text or a number; nothing to look at. */
export const ORDINARY = 0;
export const LINE_FEED = 1;
export const RETURN = 2;
export const COLON_SIGN = 3;
export const HASH_SIGN = 4;
/** Ends a value inside brackets. */
export const FLOW_END = 5;
/** Not for the fast reader: control characters, tabs, line separators, marks of byte order. */
export const STRANGE = 6;

const UNITS = 0x10000;

/** Classes within a line of block text. */
export const BLOCK_CLASS = blockClasses();

/** Classes within one-line brackets. */
export const FLOW_CLASS = flowClasses();

/** 2 for a letter, 1 for what may follow in a key, 0 for the rest. */
export const KEY_CLASS = keyClasses();

/** How an unquoted value may begin: 0 with this, 1 never, 2 only if no blank follows. */
export const START_CLASS = classes([
  ['\t\r\n#&*!|>%@`,[]{}"\'', 1],
  ['-?:', 2],
]);

/** Whether a text that begins so may be a number (1) or another value that is no text (2). */
export const CORE_START = classes([
  ['0123456789', 1],
  ['~nNtTfF.+-', 2],
]);

function classes(groups: readonly (readonly [string, number])[]): Uint8Array {
  const table = new Uint8Array(UNITS);
  for (const [letters, value] of groups)
    for (const letter of letters) table[letter.charCodeAt(0)] = value;
  return table;
}

function blockClasses(): Uint8Array {
  const table = classes([
    ['\n', LINE_FEED],
    ['\r', RETURN],
    [':', COLON_SIGN],
    ['#', HASH_SIGN],
    ['\u2028\u2029\ufeff\ufffe\uffff', STRANGE],
  ]);
  for (let unit = 0; unit < 0x20; unit++) if (table[unit] === ORDINARY) table[unit] = STRANGE;
  return table.fill(STRANGE, 0x7f, 0xa0);
}

function flowClasses(): Uint8Array {
  const table = blockClasses();
  for (const letter of ',]}') table[letter.charCodeAt(0)] = FLOW_END;
  for (const letter of '[{') table[letter.charCodeAt(0)] = STRANGE;
  return table;
}

function keyClasses(): Uint8Array {
  const table = classes([['-_0123456789', 1]]);
  return table.fill(2, 0x41, 0x5b).fill(2, 0x61, 0x7b);
}
