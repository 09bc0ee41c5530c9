/** What is wrong with a load line is said of the word that is wrong. */
import { describe, expect, it } from 'vitest';
import { FIELDS } from '../../schema/generated/fields.js';
import { FORMS } from '../../src/entry/forms.ts';
import { readSentence } from '../../src/entry/sentence.ts';
import { smallLexicon } from '../helpers/small-studio.ts';

function readLine(sentence: string): ReturnType<typeof readSentence> {
  const form = FORMS.find(({ kind, field }) => kind === 'firings' && field === 'load');
  const { load } = FIELDS.firings.fields;
  if (!form || load?.type !== 'list' || load.of.type !== 'record') throw new Error('no such form');
  const grounds = { form, spec: load.of, lexicon: smallLexicon() };
  return readSentence(sentence, grounds);
}

function faultsIn(sentence: string): [start: number, message: string, hint: string][] {
  return readLine(sentence).faults.map(({ start, message, hint }) => [start, message, hint]);
}

describe('a load line', () => {
  it.each([
    [
      'may lose to a cause but once',
      '4 p260301ab 2 first 1 cracked 1 cracked',
      [30, '"cracked" is given twice', 'keep one of the two'],
    ],
    [
      'has a cause that is mistyped, and its count is well',
      '4 p260301ab 2 first 1 craked',
      [
        22,
        '"craked" is neither an id in this studio nor a word this line can use',
        'did you mean "cracked"?',
      ],
    ],
    [
      'has a word twice',
      '4 for a school for a neighbour',
      [15, '"for" is given twice', 'keep one of the two'],
    ],
  ])('%s', (_, sentence, fault) => {
    expect(faultsIn(sentence)).toEqual([fault]);
  });

  it('may say which of its causes the lost pieces are due to', () => {
    const sentence = '8 p260301ab 4 first 2 second 2 lost 1 stuck 1 ran lost-to 1 ran 1 cracked';
    expect(readLine(sentence)).toMatchObject({
      faults: [],
      fields: {
        why: { stuck: '1', ran: '2', cracked: '1' },
        'lost-to': { ran: '1', cracked: '1' },
      },
    });
    expect(faultsIn('2 p260301ab 2 lost lost-to 1 ran 1 ran')).toEqual([
      [33, '"ran" is given twice', 'keep one of the two'],
    ]);
  });

  it('has a count of nothing', () => {
    expect(faultsIn('4 p260301ab 2 first 1')).toEqual([
      [20, '"1" has no place here', expect.stringContaining('write ')],
    ]);
  });
});
