import { expect, test } from 'vitest';
import * as fc from 'fast-check';
import { nearest } from '../../src/nearest.ts';
import { holds } from '../helpers/law.ts';

const NAMES = ['nepheline', 'silica', 'kaolin', 'ball-clay', 'tin-oxide'];

test.each([
  ['nephline', 'nepheline'],
  ['sliica', 'silica'],
  ['Kaolin', 'kaolin'],
  ['ballclay', 'ball-clay'],
  ['tin-oxyde', 'tin-oxide'],
])('%s most likely means %s', (word, meant) => {
  expect(nearest(word, NAMES)).toBe(meant);
});

test('a word that is far from all candidates has no nearest', () => {
  expect(nearest('whiting', NAMES)).toBeUndefined();
  expect(nearest('mug', ['jug', 'bowl'])).toBe('jug');
  expect(nearest('mug', ['jar', 'bowl'])).toBeUndefined();
});

test('a nearer candidate stands over an earlier one, and the first of equals counts', () => {
  expect(nearest('bowls', ['bowled', 'bowl'])).toBe('bowl');
  expect(nearest('mug', ['mig', 'mag'])).toBe('mig');
});

test('two neighbours swapped are one slip', () => {
  expect(nearest('abc', ['acb'])).toBe('acb');
  expect(nearest('abc', ['cba'])).toBeUndefined();
});

test('a word with one letter changed is always found again', () => {
  const word = fc.stringMatching(/^[a-z]{4,12}$/);
  holds(
    fc.property(word, fc.nat(), fc.constantFrom('0', '5', '9'), (name, where, digit) => {
      const at = where % name.length;
      const mistyped = name.slice(0, at) + digit + name.slice(at + 1);
      expect(nearest(mistyped, [name])).toBe(name);
    }),
  );
});
