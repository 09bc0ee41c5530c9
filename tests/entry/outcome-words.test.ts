/** What is wrong with a load line is said of the word that is wrong. */
import { describe, expect, it } from 'vitest';
import { FIELDS } from '../../schema/generated/fields.js';
import { FORMS } from '../../src/entry/forms.ts';
import { readSentence } from '../../src/entry/sentence.ts';
import { smallLexicon } from '../helpers/small-studio.ts';

function faultsIn(sentence: string): [start: number, message: string, hint: string][] {
  const form = FORMS.find(({ kind, field }) => kind === 'firings' && field === 'load');
  const { load } = FIELDS.firings.fields;
  if (!form || load?.type !== 'list' || load.of.type !== 'record') throw new Error('no such form');
  const grounds = { form, spec: load.of, lexicon: smallLexicon() };
  const { faults } = readSentence(sentence, grounds);
  return faults.map(({ start, message, hint }) => [start, message, hint]);
}

describe('a load line', () => {
  it.each([
    [
      'may lose to a cause but once',
      '4 p260301ab 2 first 1 cracked 1 cracked',
      [30, '"cracked" stands here for the second time', 'keep one of the two'],
    ],
    [
      'has a cause that is mistyped, and its count is well',
      '4 p260301ab 2 first 1 craked',
      [22, '"craked" is no id of this studio and no word of this form', 'did you mean "cracked"?'],
    ],
    [
      'has a word twice',
      '4 for a school for a neighbour',
      [15, '"for" stands here for the second time', 'keep one of the two'],
    ],
  ])('%s', (_, sentence, fault) => {
    expect(faultsIn(sentence)).toEqual([fault]);
  });

  it('has a count of nothing', () => {
    expect(faultsIn('4 p260301ab 2 first 1')).toEqual([
      [20, '"1" has no place here', expect.stringContaining('write ')],
    ]);
  });
});
