import { describe, expect, it } from 'vitest';
import { begin, offersOf, press, type QuestionState } from '../../src/entry/questions/asking.ts';
import { groundOf, optionWords, recordOf } from '../../src/entry/questions/ground.ts';
import { recordScript } from '../../src/entry/questions/record-script.ts';
import { openFaults, openLines, wareChoices } from '../../src/entry/which-ware.ts';
import { STUDIO_PLACE } from '../../src/reckon/ware/lot.ts';
import { openFolder, small } from '../helpers/small-studio.ts';

const lot = (
  ...[id, glaze, count, second = 0]: [string, string, number, number?]
): Record<string, string> => ({
  [`pieces/${id}.yaml`]: `${id}:\n  date: 2026-03-01\n  product: bowl\n  made: ${count}\n  glazes:\n    - { recipe: ${glaze}, each: 1 g }\n`,
  [`firings/f${id.slice(1)}.yaml`]: `f${id.slice(1)}:\n  date: 2026-03-04\n  kiln: rotunda\n  kind: bisque\n  energy: 1 kWh\n  load:\n    - { lot: ${id}, in: ${count}, first: ${count} }\n`,
  [`firings/g${id.slice(1)}.yaml`]: `g${id.slice(1)}:\n  date: 2026-03-06\n  kiln: rotunda\n  kind: glaze\n  cone: "6"\n  energy: 1 kWh\n  load:\n    - { lot: ${id}, in: ${count}, first: ${count - second}, second: ${second} }\n`,
});

/** Five green bowls, one of them a second, and three celadon ones, one of which is at the gallery. */
const BOWLS = {
  ...lot('p260301ba', 'sea-green', 5, 1),
  ...lot('p260301bb', 'celadon', 3),
  'consigned/2026.yaml':
    'c260310ab:\n  date: 2026-03-10\n  channel: gallery\n  sent:\n    - { product: bowl, glaze: celadon, count: 1, price: 40 }\n',
};

const bowl = { day: '2026-04-30', place: STUDIO_PLACE, product: 'bowl' };

describe('which ware a line means', () => {
  it('is open where several glazes stand at the place', async () => {
    const { book } = await openFolder(small(BOWLS));
    expect(wareChoices(book, bowl)).toEqual([
      { words: 'sea-green', count: 4 },
      { words: 'celadon', count: 2 },
    ]);
    // Named, or only one there: nothing to choose.
    expect(wareChoices(book, { ...bowl, glaze: 'celadon' })).toEqual([]);
    expect(wareChoices(book, { ...bowl, lot: 'p260301bb' })).toEqual([]);
    expect(wareChoices(book, { ...bowl, grade: 'second' })).toEqual([]);
    expect(wareChoices(book, { ...bowl, place: 'gallery' })).toEqual([]);
    // Before anything came out of the kiln there is nothing.
    expect(wareChoices(book, { ...bowl, day: '2026-03-05' })).toEqual([]);
  });

  it('is open where only seconds are left, and not by itself taken for one', async () => {
    const { book } = await openFolder(small(lot('p260301ba', 'sea-green', 2, 2)));
    expect(wareChoices(book, bowl)).toEqual([{ words: 'second', count: 2 }]);
    const fields = {
      date: '2026-04-30',
      channel: 'market',
      lines: [{ product: 'bowl', count: '1' }],
    };
    expect(openFaults(book, 'sales', { typed: { lines: ['1 bowl'] }, fields })).toMatchObject([
      {
        path: ['lines', 0],
        message: 'no firsts of bowl are left: in the studio are 2 second',
        hint: 'write "1 bowl second"',
      },
    ]);
  });

  it.each([
    ['1 bowl at 40', '"1 bowl sea-green at 40" or "1 bowl celadon at 40"'],
    ['bowl', '"bowl sea-green" or "bowl celadon"'],
  ])('is said with %j in the usual order of its words', async (sentence, lines) => {
    const { book } = await openFolder(small(BOWLS));
    const date = '2026-04-30';
    const fields = { date, channel: 'market', lines: [{ product: 'bowl', count: '1' }] };
    const [fault] = openFaults(book, 'sales', { typed: { lines: [sentence] }, fields });
    expect(fault?.hint).toBe(`write ${lines}`);
  });

  it('is told by lots where two lots have no glaze of their own', async () => {
    const more = { ...lot('p260301ba', 'sea-green', 2), ...lot('p260301bb', 'celadon', 3) };
    const both = more['pieces/p260301ba.yaml']?.replace(
      'glazes:',
      'glazes:\n    - { recipe: celadon, each: 1 g }',
    );
    const { book } = await openFolder(small({ ...more, 'pieces/p260301ba.yaml': both ?? '' }));
    expect(wareChoices(book, bowl)).toEqual([
      { words: 'sea-green', count: 2 },
      { words: 'p260301bb', count: 3 },
    ]);
  });

  it('is asked of sales, of returns, and of what goes to a gallery or comes from there', async () => {
    const { book } = await openFolder(small(BOWLS));
    const line = { product: 'bowl', count: '1' };
    const paths = (kind: 'sales' | 'consigned', more: object): unknown[] =>
      openLines(book, kind, { date: '2026-04-30', ...more }).map(({ path, choices }) => [
        ...path,
        ...choices.map(({ words }) => words),
      ]);
    expect(
      paths('sales', { channel: 'market', lines: [line, { ...line, returned: 'yes' }] }),
    ).toEqual([
      ['lines', 0, 'sea-green', 'celadon'],
      ['lines', 1, 'sea-green', 'celadon'],
    ]);
    // The gallery has only the one.
    expect(paths('sales', { channel: 'gallery', lines: [line] })).toEqual([]);
    expect(paths('consigned', { channel: 'gallery', sent: [line], back: [line] })).toEqual([
      ['sent', 0, 'sea-green', 'celadon'],
    ]);
  });
});

function reply(asking: QuestionState, ...lines: readonly string[]): QuestionState {
  return lines.reduce((state, text) => {
    const typed = press({ ...state, line: { text: '', at: 0 } }, { name: 'text', text });
    return press(typed, { name: 'enter', text: '' });
  }, asking);
}

describe('the question about it', () => {
  it('comes after the line, with counts, and its answer goes into the line', async () => {
    const ground = groundOf(await openFolder(small(BOWLS)), { kind: 'sales', words: [] });
    const at = reply(begin(recordScript(ground)), '', 'market', '', '1 bowl at 40');
    expect(at.question).toMatchObject({ key: 'which lines 0 2', prompt: 'Which bowl' });
    expect(at.question?.offers('')).toEqual([
      { line: 'sea-green', label: 'sea-green', note: '4 in the studio' },
      { line: 'celadon', label: 'celadon', note: '2 in the studio' },
    ]);
    expect(at.question?.path).toEqual(['lines', 0, 'glaze']);
    const refused = reply(at, 'linen');
    expect(refused.message).toBe('"linen" is not one of these; choose one below');
    // What is offered is not narrowed by what was refused, and Enter does not take it for one of these.
    expect(offersOf(refused)).toEqual(at.question?.offers(''));
    expect(press(refused, { name: 'enter', text: '' }).answers).toBe(at.answers);
    const next = reply(at, 'cel', '1 mug');
    expect(next.answers.map(({ key }) => key).slice(-3)).toEqual([
      'line',
      'which lines 0 2',
      'line',
    ]);
    const { fields } = recordOf(ground, optionWords(ground, next.answers));
    expect(fields['lines']).toMatchObject([
      { product: 'bowl', glaze: 'celadon', price: '40' },
      { product: 'mug' },
    ]);
  });
});
