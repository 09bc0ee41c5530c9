import { Buffer } from 'node:buffer';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Place } from '../../src/problem.ts';
import { decodeText, unfitCharacter } from '../../src/read/text.ts';
import { holds } from '../helpers/law.ts';

function decode(...bytes: readonly (string | number)[]): ReturnType<typeof decodeText> {
  return decodeText(
    'a.yaml',
    Buffer.concat(
      bytes.map((part) => (typeof part === 'string' ? Buffer.from(part) : Buffer.of(part))),
    ),
  );
}

function placeIn(text: ReturnType<typeof decodeText>): Partial<Place> {
  if (typeof text === 'string') throw new Error('decoded');
  expect(text).toMatchObject({ rule: 'unreadable-file', severity: 'error' });
  const { line, column, source } = text.at as Place;
  return { line, column, source };
}

describe('text from bytes', () => {
  test.each([
    ['ASCII', ['a: 1\r\n'], 'a: 1\r\n'],
    ['other letters', ['°C ½ é 🏺'], '°C ½ é 🏺'],
    ['without the byte order mark', ['\ufeffa: é'], 'a: é'],
    ['with a byte order mark inside', ['a: \ufeffé'], 'a: \ufeffé'],
    ['nothing', [''], ''],
    ['the byte order mark alone', ['\ufeff'], ''],
  ])('%s', (_, bytes, text) => {
    expect(decode(...bytes)).toBe(text);
  });

  test('any text comes back from its bytes', () => {
    const same = fc.property(fc.string({ unit: 'binary' }), (text) => {
      expect(decode(text)).toBe(text.replace(/^\ufeff/, ''));
    });
    holds(same);
  });
});

describe('bytes that are no text', () => {
  test.each([
    [
      'a byte that begins nothing',
      ['a: 1\nb: é', 0xff, 'x\nc: 2\n'],
      { line: 2, column: 5, source: 'b: é\ufffdx' },
    ],
    ['a character cut short', ['a: ', 0xc3], { line: 1, column: 4, source: 'a: \ufffd' }],
    [
      'a character cut short by the line',
      ['a: ', 0xe2, 0x82, '\nb: 1\n'],
      { line: 1, column: 4, source: 'a: \ufffd' },
    ],
    [
      'a needlessly long form',
      ['a: ', 0xc0, 0x80],
      { line: 1, column: 4, source: 'a: \ufffd\ufffd' },
    ],
    [
      'a surrogate',
      ['a: ', 0xed, 0xa0, 0x80],
      { line: 1, column: 4, source: 'a: \ufffd\ufffd\ufffd' },
    ],
    [
      'behind a replacement character of the file',
      ['a: \ufffd', 0xff],
      { line: 1, column: 5, source: 'a: \ufffd\ufffd' },
    ],
    ['in CRLF', ['a: 1\r\nb: ', 0xff, '\r\n'], { line: 2, column: 4, source: 'b: \ufffd' }],
    ['behind a byte order mark', ['\ufeffa: ', 0xff], { line: 1, column: 4, source: 'a: \ufffd' }],
    ['Latin-1', ['a: caf', 0xe9, '\n'], { line: 1, column: 7, source: 'a: caf\ufffd' }],
  ])('%s', (_, bytes, place) => {
    expect(placeIn(decode(...bytes))).toEqual(place);
  });

  test.each([
    ['little-endian', Buffer.from('\ufeffa: 1\n', 'utf16le')],
    ['big-endian', Buffer.from('\ufeffa: 1\n', 'utf16le').swap16()],
  ])('UTF-16, %s, is named', (_, bytes) => {
    expect(decodeText('a.yaml', bytes)).toMatchObject({
      rule: 'unreadable-file',
      message: 'the file is written in UTF-16, not in UTF-8',
      at: { line: 1, column: 1 },
    });
  });

  test('any bytes are decoded or refused at a place in them', () => {
    const fine = fc.property(fc.uint8Array({ maxLength: 40 }), (bytes) => {
      const text = decodeText('a.yaml', Buffer.from(bytes));
      if (typeof text === 'string') return;
      const { line, column, source } = text.at as Place;
      const lines = Buffer.from(bytes).toString('utf8').split('\n');
      expect(line).toBeLessThanOrEqual(lines.length);
      expect(column).toBeLessThanOrEqual(source.length + 1);
    });
    holds(fine, 2000);
  });
});

describe('unfit characters', () => {
  const find = (text: string, start = 0, end = text.length) =>
    unfitCharacter('a.yaml', text, { start, end });

  test.each([
    '\0',
    '\x08',
    '\v',
    '\f',
    '\x1b',
    '\x7f',
    '\x85',
    '\x9f',
    '\u2028',
    '\u2029',
    '\ufeff',
    '\uffff',
  ])('%j', (sign) => {
    const code = sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0');
    const finding = find(`a: 1\nb: x${sign}y`);
    expect(finding).toMatchObject({ rule: 'yaml-error', at: { line: 2, column: 5, width: 1 } });
    expect(finding?.message).toContain(`U+${code}`);
  });

  test('a return without a line feed', () => {
    expect(find('a: 1\rb: 2')?.message).toContain('carriage return');
    expect(find('a: 1\r')?.message).toContain('carriage return');
  });

  test('none in what a text may have', () => {
    expect(find('a:\tb\r\n é½°“–” \u00a0 🏺 \u200d\n')).toBeUndefined();
  });

  test('only within the span', () => {
    expect(find('\0a\0', 1, 2)).toBeUndefined();
    expect(find('\0a\0', 1, 3)?.at).toMatchObject({ column: 3 });
  });
});
