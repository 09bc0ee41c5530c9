import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { PATTERNS } from '../../../schema/generated/fields.js';
import { wordingOf } from '../../../src/check/faults/wording.ts';
import { holds } from '../../helpers/law.ts';

test('what is told to write can be written', () => {
  const told = (hint: string): string[] => {
    const [, answers = ''] =
      /^write ("?[\d$].*?)(?:,? (?:whichever|or the|if) .*)?$/.exec(hint) ?? [];
    return answers === '' ? [] : answers.replaceAll('"', '').split(' or ');
  };
  const type = fc.constantFrom(...Object.keys(PATTERNS).filter((name) => name !== 'text'));
  const piece = fc.constantFrom(
    '1',
    '12',
    '0',
    '.',
    ',',
    ' ',
    '-',
    '/',
    ':',
    'kg',
    'km',
    'C',
    'pm',
    '%',
    'x',
    '½',
    '2026',
    '3',
    '$',
  );
  const text = fc.array(piece, { minLength: 1, maxLength: 6 }).map((pieces) => pieces.join(''));
  let answered = 0;
  holds(
    fc.property(type, text, (name, value) => {
      const form = new RegExp(PATTERNS[name]!, 'u');
      if (form.test(value)) return;
      for (const answer of told(wordingOf(name, { name: 'it', text: value, example: 'x' }).hint)) {
        answered += 1;
        expect([name, value, answer, form.test(answer)]).toEqual([name, value, answer, true]);
      }
    }),
    20000,
  );
  expect(answered).toBeGreaterThan(500);
});
