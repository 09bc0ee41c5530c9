/** What the entry offers in its lists, by what is answered already. */
import { describe, expect, it } from 'vitest';
import type { Kind } from '../../../src/book.ts';
import { begin, change, press, type QuestionState } from '../../../src/entry/questions/asking.ts';
import { groundOf } from '../../../src/entry/questions/ground.ts';
import { recordScript } from '../../../src/entry/questions/record-script.ts';
import { openFolder, small } from '../../helpers/small-studio.ts';

async function asked(kind: Kind, words: readonly string[] = [], more = {}): Promise<QuestionState> {
  const ground = groundOf(await openFolder(small(more)), { kind, words });
  return begin(recordScript(ground));
}

function reply(asking: QuestionState, ...lines: readonly string[]): QuestionState {
  return lines.reduce((state, text) => {
    const typed = press({ ...state, line: { text: '', at: 0 } }, { name: 'text', text });
    return press(typed, { name: 'enter', text: '' });
  }, asking);
}

describe('offers that suit what is known', () => {
  const labels = ({ question }: QuestionState): string[] =>
    question?.offers('').map(({ label, note }) => `${label}: ${note}`) ?? [];

  it('of a supplier: what was last bought there, with pack and price', async () => {
    const atLines = reply(await asked('bought', ['--supplier', 'Pit']), '', '');
    expect(labels(atLines)[0]).toBe('50 cone-6 for 25.00: 2026-01-05');
    expect(labels(reply(atLines, '50 cone-6 for 25.00'))[0]).toBe(
      '500 g cobalt for 60.00: 2026-01-05',
    );
  });

  it('of a stocktake: every item with what the book has, one after the other', async () => {
    const atMaterials = reply(await asked('counted'), '');
    const [first = ''] = labels(atMaterials);
    expect(first).toMatch(/ by the book$/);
    const line = first.replace(/: by the book$/, '');
    expect(labels(reply(atMaterials, line))[0]).not.toBe(first);
    expect(labels(reply(atMaterials, ''))).toEqual([
      '11 mug first: by the book',
      '1 mug second: by the book',
    ]);
  });

  it('of a delivery and what comes back: what stands here, and there', async () => {
    const sent =
      'c260410ab:\n  date: 2026-04-10\n  channel: gallery\n  sent:\n    - { product: mug, count: 3, price: 40 }\n';
    const more = { 'consigned/2026.yaml': sent };
    const atSent = reply(await asked('consigned', ['--channel', 'gallery'], more), '');
    expect(labels(atSent)[0]).toBe('1 mug: 8 here, 38.50 each');
    expect(labels(reply(atSent, ''))[0]).toBe('1 mug: 3 there, 38.50 each');
  });

  it('of other fields: what is left, once a finished record is to be changed', async () => {
    const words = ['--channel', 'market', '--date', '2026-04-30', '--line', '1 mug'];
    const open = (asking: QuestionState): QuestionState =>
      change(asking, asking.answers.length - 1);
    const at = reply(open(await asked('sales', words)), 'discount');
    expect(at.question?.key).toBe('discount');
    const again = reply(at, '10%');
    expect([again.question, open(again).question?.offers('disc')]).toEqual([undefined, []]);
    expect(again.answers.flatMap(({ gives }) => gives)).toContain('10%');
  });
});

describe('offers while a line is typed', () => {
  it('narrow what is offered to what is typed', async () => {
    const atLines = reply(await asked('sales', ['--channel', 'shop']), '');
    const labels = (line: string): string[] =>
      atLines.question?.offers(line).map(({ label }) => label) ?? [];
    expect(labels('')).toEqual(['1 mug', '1 mug second', '1 evening-class']);
    // What is there comes with the count that was typed, what is not there by its name alone.
    expect(labels('2 mu')).toEqual(['2 mug', '2 mug second']);
    expect(labels('2 bo')).toEqual(['bowl']);
    expect(labels('2 p2603')).toEqual(['p260302cd', 'p260301ab']);
    expect(labels('2 mug sea')).toEqual(['sea-green']);
    expect(labels('2 mug sea-green')).toEqual([]);
    expect(labels('2 mug a')).toContain('at');
    expect(labels('2 mug at ')).toEqual([]);
    expect(atLines.question?.offers('2 mug sea')[0]?.line).toBe('2 mug sea-green ');
  });
});
