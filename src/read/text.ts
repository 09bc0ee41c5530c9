/** The bytes of a file as text, or what keeps them from being one. */
import { Buffer, isAscii, isUtf8 } from 'node:buffer';
import type { Finding, Place } from '../problem.ts';
import { LINE_FEED } from './yaml/codes.ts';
import { placeInText, wholeFile, type TextSpan } from './lines.ts';

const BYTE_ORDER_MARK = '\ufeff';
const REPLACEMENT = '\ufffd';

// Control characters but the tab and the line's end, line separators that only some readers know,
// marks of byte order, a return without a line feed.
const UNFIT = /(?![\t\n\r])\p{Cc}|[\u2028\u2029\ufeff\ufffe\uffff]|\r(?!\n)/u;

/** The text of a file's bytes without its byte order mark, or a finding (`unreadable-file`). */
export function decodeText(file: string, bytes: Buffer): string | Finding {
  if (isAscii(bytes)) return bytes.toString('latin1');
  if (!isUtf8(bytes)) return notUtf8(file, bytes);
  const text = bytes.toString('utf8');
  return text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
}

/** The first character in a span of a text that a text file must not have, as a `yaml-error`. */
export function unfitCharacter(file: string, text: string, within: TextSpan): Finding | undefined {
  const match = UNFIT.exec(text.slice(within.start, within.end));
  if (!match) return undefined;
  const start = within.start + match.index;
  return {
    rule: 'yaml-error',
    severity: 'error',
    at: placeInText(file, text, { start, end: start + 1 }),
    ...unfitWords(match[0]),
  };
}

function unfitWords(character: string): { message: string; hint: string } {
  if (character === '\r')
    return {
      message: 'a carriage return is alone, without a line feed',
      hint: 'let the editor end the lines with LF or CRLF',
    };
  const code = character.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
  return {
    message: `an invisible character (U+${code}) is here that no text file should have`,
    hint: 'delete it; if the file is full of them, it is not a text file',
  };
}

function notUtf8(file: string, bytes: Buffer): Finding {
  return {
    rule: 'unreadable-file',
    severity: 'error',
    ...(isUtf16(bytes)
      ? { at: wholeFile(file), message: 'the file is written in UTF-16, not in UTF-8' }
      : { at: firstFault(file, bytes), message: 'from here on the text is not valid UTF-8' }),
    hint: 'save the file again with the encoding UTF-8',
  };
}

function isUtf16(bytes: Buffer): boolean {
  const mark = bytes.subarray(0, 2).toString('hex');
  return mark === 'fffe' || mark === 'feff';
}

/** The place of the first byte that belongs to no character. */
function firstFault(file: string, bytes: Buffer): Place {
  let line = 1;
  let start = 0;
  let end = lineEnd(bytes, 0);
  while (end < bytes.length && isUtf8(bytes.subarray(start, end))) {
    line += 1;
    start = end + 1;
    end = lineEnd(bytes, start);
  }
  const place = faultInLine(bytes.subarray(start, end), line === 1);
  return { file, line, width: 1, ...place };
}

function lineEnd(bytes: Buffer, from: number): number {
  const at = bytes.indexOf(LINE_FEED, from);
  return at < 0 ? bytes.length : at;
}

function faultInLine(bytes: Buffer, isFirst: boolean): Pick<Place, 'column' | 'source'> {
  const decoded = bytes.toString('utf8').replace(/\r$/, '');
  const source = isFirst ? decoded.replace(BYTE_ORDER_MARK, '') : decoded;
  const column = faultyUnit(bytes, decoded) - (decoded.length - source.length) + 1;
  return { column: Math.max(1, column), source };
}

// The decoder writes a replacement for each fault, but the file may hold that character as well.
function faultyUnit(bytes: Buffer, decoded: string): number {
  let at = decoded.indexOf(REPLACEMENT);
  while (at >= 0 && isUtf8(bytes.subarray(0, Buffer.byteLength(decoded.slice(0, at + 1)))))
    at = decoded.indexOf(REPLACEMENT, at + 1);
  return Math.max(0, at);
}
