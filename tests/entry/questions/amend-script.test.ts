import { describe, expect, it } from 'vitest';
import { lexiconOf } from '../../../src/entry/lexicon.ts';
import {
  amendAnswers,
  amendScript,
  type AmendErrand,
} from '../../../src/entry/questions/amend-script.ts';
import { begin, offersOf, press, type QuestionState } from '../../../src/entry/questions/asking.ts';
import { openFolder, small } from '../../helpers/small-studio.ts';

async function errandFor(id?: string): Promise<AmendErrand> {
  const opened = await openFolder(small());
  const lexicon = lexiconOf(opened.reading.files);
  return { opened, lexicon, record: lexicon.find(id ?? ''), from: undefined };
}

function reply(asking: QuestionState, ...lines: readonly string[]): QuestionState {
  return lines.reduce((state, text) => {
    const typed = press({ ...state, line: { text: '', at: 0 } }, { name: 'text', text });
    return press(typed, { name: 'enter', text: '' });
  }, asking);
}

const promptOf = ({ question }: QuestionState): string => question?.prompt ?? 'done';

describe('the questions about a record that is wrong', () => {
  it('offer the latest records first, those of a day from the last in their file on', async () => {
    const { opened, ...errand } = await errandFor();
    const asking = begin(amendScript({ ...errand, opened: { ...opened, asOf: '2026-04-02' } }));
    const [first, second] = offersOf(asking);
    expect(asking.question?.fallback).toBe('s260402cd');
    expect(first).toMatchObject({
      line: 's260402cd',
      note: 'sale of 2026-04-02, market, Puddle Coffee',
    });
    expect(second?.line).toBe('s260401ab');
    expect(offersOf({ ...asking, line: { text: 'puddle', at: 6 } })).toEqual([first]);
    expect(reply(asking, 's260499xx').message).toContain('is not the id of a record');
    // Nothing of a later day is the latest.
    const dates = offersOf(asking).map(({ note }) => /of (\S+?),?(?: |$)/.exec(note)?.[1] ?? '');
    expect(dates).toEqual([...dates].sort().reverse());
  });

  it('lead to a field of the record, to what stands there, and to its place', async () => {
    const errand = await errandFor('s260402cd');
    const asking = begin(amendScript(errand));
    expect(offersOf(asking).map(({ line, note }) => [line, note])).toEqual([
      ['date', '2026-04-02'],
      ['channel', 'market'],
      ['buyer', 'Puddle Coffee'],
      ['lines.1.product', 'mug'],
      ['lines.1.count', '4'],
      ['lines.1.price', '36'],
      ['discount', '10%'],
    ]);
    expect(asking.question?.marks?.('lines.1.count')).toEqual(['lines', 0, 'count']);
    // The only offer that has it, by what stands there.
    expect(promptOf(reply(asking, 'pud'))).toBe('buyer');
    const count = reply(asking, 'count');
    expect(count.question).toMatchObject({
      prompt: 'lines.1.count',
      about: '4 now',
      path: ['lines', 0, 'count'],
    });
    expect(reply(count, 'four').message).toContain('is not a whole number');
    expect(reply(count, '0').message).not.toBe('');
    expect(promptOf(reply(count, '3'))).toBe('What else is wrong');
    const done = reply(count, '3', 'note=two chipped', 'discount=', '');
    expect(promptOf(done)).toBe('done');
    expect(amendAnswers(errand, done.answers).changes).toEqual([
      'lines.1.count=3',
      'note=two chipped',
      'discount=',
    ]);
  });

  it.each([
    ['', 'At least one line is needed.'],
    ['lines', 'say which, counted from 1'],
    ['colour', 'has no field "colour"'],
    ['channel=markt', 'did you mean "market"?'],
    ['lines.1.count=x', 'is not a whole number'],
  ])('refuse %j at once', async (typed, why) => {
    const asking = begin(amendScript(await errandFor('s260402cd')));
    expect(reply(asking, typed).message).toContain(why);
  });

  it('ask which of several fields of one name is meant', async () => {
    const asking = begin(amendScript(await errandFor('s260401ab')));
    expect(reply(asking, 'price').message).toContain('lines.1.price and lines.2.price');
  });
});
