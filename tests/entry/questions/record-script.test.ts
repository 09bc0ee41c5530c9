import { describe, expect, it } from 'vitest';
import { KINDS, type Kind } from '../../../src/book.ts';
import { begin, change, press, type QuestionState } from '../../../src/entry/questions/asking.ts';
import { groundOf, recordOf, optionWords } from '../../../src/entry/questions/ground.ts';
import { recordScript } from '../../../src/entry/questions/record-script.ts';
import { exampleWords } from '../../../src/entry/examples.ts';
import {
  fieldOptions,
  isStoodFor,
  missingOptions,
  readOptions,
} from '../../../src/entry/fields.ts';
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

const told = ({ question, message }: QuestionState): string[] => [question?.key ?? 'done', message];
const others = (asking: QuestionState): QuestionState['question'] =>
  change(asking, asking.answers.length - 1).question;
const keys = ({ answers }: QuestionState): string[] => answers.map(({ key }) => key);

describe('the questions about a record', () => {
  it('ask only for what no option gives', async () => {
    const asking = await asked('sales', ['--channel', 'shop', '--date', '2026-04-30']);
    expect(asking.question?.key).toBe('line');
    // An empty line ends the lines, no advance is used, it is owed as trade mostly is, and this is all.
    const done = reply(asking, '1 mug', '', '', '', '');
    expect(done.answers.flatMap(({ gives }) => gives)).toEqual(['--line', '1 mug', '--paid', 'no']);
    expect(done.question).toBeUndefined();
  });

  it('take defaults from the last similar record', async () => {
    // The bowls are in the kiln, and the only pieces that are ready are bisqueware.
    const kind = reply(await asked('firings'), '');
    expect(kind.question).toMatchObject({ key: 'kind', fallback: 'glaze' });
    const kiln = reply(kind, '');
    expect(kiln.question).toMatchObject({ key: 'kiln', fallback: 'rotunda' });
    expect(reply(kiln, '').question?.fallback).toBe('6');
    // The last bisque firing has no cone, and that of a glaze firing is not offered for it.
    expect(reply(kind, 'bisque', '').question?.fallback).toBe('');
  });

  it('say how a day may be typed, and nothing on keys', async () => {
    const { about } = (await asked('sales')).question ?? {};
    expect(about).toBe('such as today, yesterday, monday, 3 days ago or 2026-03-08');
    const sale = await asked('sales', ['--date', '2026-04-30', '--channel', 'shop']);
    for (const state of [sale, reply(sale, '1 mug'), reply(sale, '1 mug', '')])
      expect(state.question?.about).not.toMatch(/Enter|empty line|leaves it out/);
  });

  it('ask for a buyer where the channel had one before, and never at a fair', async () => {
    const sale = (channel: string): string =>
      `s260403ab:\n  date: 2026-04-03\n  channel: ${channel}\n  buyer: x\n  lines:\n    - { product: mug, count: 1, price: 20 }\n`;
    const shop = await asked('sales', [], { 'sales/x.yaml': sale('shop') });
    expect(reply(shop, '', 'shop').question?.key).toBe('buyer');
    expect(reply(await asked('sales'), '', 'shop').question?.key).toBe('line');
    const fair = await asked('sales', [], { 'sales/x.yaml': sale('market') });
    expect(reply(fair, '', 'market').question?.key).toBe('float');
  });

  it("explain a wrong answer in the check's words", async () => {
    const asking = await asked('sales');
    expect(told(reply(asking, '2026-02-30'))[1]).toContain('"2026-02-30"');
    const atChannel = reply(asking, '');
    expect(told(reply(atChannel, 'galery'))).toEqual([
      'channel',
      'there is no channel "galery"; did you mean "gallery"?',
    ]);
    const atLines = reply(atChannel, 'shop');
    expect(told(reply(atLines, '200 mug'))[1]).toContain('not enough of mug: 11 in the studio');
    expect(told(reply(atLines, '1 mug at 3,5'))[1]).toContain('3,5');
    expect(told(reply(atLines, 'at 20'))[1]).toContain('count is missing');
  });

  it('count up money and kiln space', async () => {
    const sale = reply(await asked('sales', ['--channel', 'shop']), '', '2 mug', '1 mug at 30');
    expect(sale.answers.map(({ right }) => right)).toEqual([
      '',
      '40.00   total 40.00 USD',
      '30.00   total 70.00 USD',
    ]);
    const kilns = 'rotunda:\n  name: Rotunda\n  fuel: electricity\n  space: 3\n';
    const words = ['--kiln', 'rotunda', '--kind', 'glaze', '--cone', '6', '--energy', '40 kWh'];
    const load = reply(await asked('firings', words, { 'kilns.yaml': kilns }), '', '4 p260301ab');
    expect(load.answers.at(-1)).toMatchObject({
      left: '4 p260301ab (mug)',
      right: '4   space 4 of 3',
    });
    expect(load.message).toContain('the load takes 4 of space, but rotunda has 3');
  });

  it('count up nothing behind supplies, which take no kiln space', async () => {
    const before =
      'f260420zz:\n  date: 2026-04-20\n  kiln: rotunda\n  kind: glaze\n  cone: "6"\n  energy: 40 kWh\n  supplies: [{ material: cone-6, quantity: 1 }]\n  load: [{ outside: a neighbour, in: 1, first: 1 }]\n';
    const words = ['--kiln', 'rotunda', '--kind', 'glaze', '--cone', '6'];
    const asking = await asked('firings', words, { 'firings/x.yaml': before });
    const supplies = reply(asking, '', '4 p260301ab', '', '2 cone-6');
    expect(supplies.answers.at(-1)).toMatchObject({ key: 'supply', left: '2 cone-6', right: '' });
  });

  it('offer the lots that are ready for the kind of firing, less what is loaded', async () => {
    const words = ['--kiln', 'rotunda', '--kind', 'glaze', '--cone', '6'];
    const atLoad = reply(await asked('firings', words), '');
    const labels = ({ question }: QuestionState): string[] | undefined =>
      question?.offers('').map(({ label, note }) => `${label}: ${note}`);
    expect(labels(atLoad)).toEqual(['4 p260301ab: mug, 4 bisqueware ready']);
    expect(labels(reply(atLoad, '3 p260301ab'))).toEqual(['1 p260301ab: mug, 4 bisqueware ready']);
    expect(labels(reply(atLoad, '4 p260301ab'))).toEqual([]);
  });

  it('offer what is for sale, less what is in the sale', async () => {
    const atLines = reply(await asked('sales', ['--channel', 'shop']), '');
    const offered = ({ question }: QuestionState): string[] | undefined =>
      question?.offers('').map(({ label, note }) => `${label}: ${note}`);
    expect(offered(atLines)).toEqual([
      '1 mug: 11 here, 20.00 each',
      '1 mug second: 1 here, 24.00 each',
      '1 evening-class: 180.00 each',
    ]);
    const some = reply(atLines, '3 mug', '1 mug at 20 returned');
    expect(offered(some)?.[0]).toBe('1 mug: 8 here, 20.00 each');
    expect(offered(reply(some, '8 mug', '1 mug second'))).toEqual(['1 evening-class: 180.00 each']);
  });

  it('offer the advances that the sale may use, up to what it comes to', async () => {
    const advances = `a1: { date: 2026-03-01, for: certificate, number: SF-1, amount: 30.00, buyer: Ann }
a2: { date: 2026-03-02, for: deposit, amount: 20.00, buyer: Ann }
a3: { date: 2026-03-03, for: deposit, amount: 70.00, buyer: Bo }
a4: { date: 2026-06-01, for: certificate, amount: 70.00 }
`;
    const more = { 'advances/2026-03.yaml': advances };
    const offered = ({ question }: QuestionState): string[] | undefined =>
      question?.offers('').map(({ label, note }) => `${label}: ${note}`);
    const words = ['--channel', 'shop', '--date', '2026-04-30', '--line', '1 mug at 40'];
    const anybody = await asked('sales', words, more);
    expect(anybody.question?.key).toBe('advance');
    expect(offered(anybody)).toEqual([
      'a1 30.00: certificate SF-1 of Ann, 30.00 left, since 2026-03-01',
      'a2 20.00: deposit of Ann, 20.00 left, since 2026-03-02',
      'a3 40.00: deposit of Bo, 70.00 left, since 2026-03-03',
    ]);
    const bo = await asked('sales', [...words, '--buyer', 'Bo'], more);
    expect(offered(bo)).toEqual([
      'a1 30.00: certificate SF-1 of Ann, 30.00 left, since 2026-03-01',
      'a3 40.00: deposit of Bo, 70.00 left, since 2026-03-03',
    ]);
    const some = reply(anybody, 'a1 25.00');
    expect(some.answers.at(-1)?.gives).toEqual(['--advance', 'a1 25.00']);
    expect(offered(some)).toEqual([
      'a1 5.00: certificate SF-1 of Ann, 5.00 left, since 2026-03-01',
      'a2 15.00: deposit of Ann, 20.00 left, since 2026-03-02',
      'a3 15.00: deposit of Bo, 70.00 left, since 2026-03-03',
    ]);
    expect(offered(reply(some, 'a2 15.00'))).toEqual([]);
  });

  it('ask for no advance where there is none that the sale may use', async () => {
    const line = ['--line', '1 mug at 40'];
    const key = async (words: readonly string[], more = {}): Promise<string | undefined> =>
      (await asked('sales', ['--date', '2026-04-30', ...line, ...words], more)).question?.key;
    const cy = {
      'advances/2026-03.yaml': 'a1: { date: 2026-03-01, for: deposit, amount: 9.00, buyer: Cy }\n',
    };
    expect(await key(['--channel', 'shop'])).toBe('advance');
    expect(await key(['--channel', 'shop', '--buyer', 'Cy'], cy)).toBe('advance');
    expect(await key(['--channel', 'shop', '--buyer', 'Di'], cy)).toBe('paid');
    expect(await key(['--channel', 'gallery', '--buyer', 'Di'])).toBe('statement');
    const before = ['--date', '2026-03-07', '--channel', 'shop', ...line];
    expect((await asked('sales', before)).question?.key).toBe('paid');
  });

  it('take a cone in the quotes that it has in the file, too', async () => {
    const words = ['--kiln', 'rotunda', '--kind', 'bisque', '--date', '2026-04-30'];
    const atCone = await asked('firings', words);
    expect(atCone.question?.key).toBe('cone');
    for (const cone of ['04', '"04"', "'04'"])
      expect(reply(atCone, cone).answers.at(-1)?.gives).toEqual(['--cone', '04']);
    expect(told(reply(atCone, '"66"'))[0]).toBe('cone');
  });

  it('close a day at a fair with a count that is written only as a note', async () => {
    const fair = reply(await asked('sales'), '', 'market', '40', '2 mug', '');
    const counted = reply(fair, '90', '28');
    expect(counted.question?.about).toBe(
      'Counted 90.00 cash less 40.00 float and 28.00 by card makes 78.00; the lines make 77.00; 1.00 over.',
    );
    const gives = (asking: QuestionState): string[] => asking.answers.flatMap((each) => each.gives);
    expect(gives(reply(counted, 'no'))).toEqual([
      '--date',
      '2026-05-01',
      '--channel',
      'market',
      '--line',
      '2 mug',
    ]);
    expect(gives(reply(counted, 'yes')).at(-1)).toBe(counted.question?.about);
    expect(gives(reply(counted, 'a dollar too much')).slice(-2)).toEqual([
      '--note',
      'a dollar too much',
    ]);
    expect(told(reply(counted, 'ja'))).toEqual([
      'note',
      'answer yes or no, or write a note of some words',
    ]);
    const uncounted = reply(fair, '', '');
    expect([told(uncounted), keys(uncounted).at(-1)]).toEqual([['done', ''], 'more']);
    expect(told(reply(fair, 'ninety'))[1]).toContain('is not an amount');
  });

  it('look for no money in the box that was paid beforehand', async () => {
    const words = ['--advance', 'a260308kt 20.00'];
    const fair = reply(await asked('sales', words), '', 'market', '0', '2 mug', '');
    expect(reply(fair, '57', '').question?.about).toContain('the lines make 57.00; it fits.');
  });

  it.each(KINDS)('of kind %s ask for everything that it needs', async (kind) => {
    const ground = groundOf(await openFolder(small()), { kind, words: [] });
    const read = readOptions({ kind, words: exampleWords(kind), others: [] });
    if ('refused' in read) throw new Error(read.refused);
    const script = recordScript(ground);
    // Answers every question with the example's words, whatever they are worth in this studio.
    let asking = begin(script);
    for (let turns = 0; asking.question && turns < 40; turns++) {
      const { key, isList, prompt } = asking.question;
      const at = exampleWords(kind).indexOf(`--${key}`);
      const text = exampleWords(kind)[at + 1] ?? '';
      const isGiven = at >= 0 && !asking.answers.some((each) => each.key === key);
      const gives = isGiven ? [`--${key}`, text] : [];
      const answer = { key, isList, prompt, gives, left: '', right: '', warning: '' };
      const taken = { ...answer, text: isGiven ? text : '' };
      asking = begin(script, [...asking.answers, taken]);
    }
    expect(asking.question).toBeUndefined();
    const { fields } = recordOf(ground, optionWords(ground, asking.answers));
    expect(missingOptions(kind, fields)).toEqual([]);
  });

  it.each(KINDS)(
    'of kind %s ask for every field, or offer it once it is to be changed',
    async (kind) => {
      const ground = groundOf(await openFolder(small()), { kind, words: [] });
      const script = recordScript(ground);
      let asking = begin(script);
      for (let turns = 0; asking.question && turns < 40; turns++) {
        const { key, isList, prompt } = asking.question;
        const at = exampleWords(kind).indexOf(`--${key}`);
        const isGiven = at >= 0 && !asking.answers.some((each) => each.key === key);
        const text = isGiven ? (exampleWords(kind)[at + 1] ?? '') : '';
        const gives = isGiven ? [`--${key}`, text] : [];
        asking = begin(script, [
          ...asking.answers,
          { key, isList, prompt, gives, text, left: '', right: '', warning: '' },
        ]);
      }
      const offered =
        others(asking)
          ?.offers('')
          .map(({ label }) => label) ?? [];
      const { fields } = recordOf(ground, optionWords(ground, asking.answers));
      const left = fieldOptions(kind)
        .filter(
          ({ name, path }) => !isStoodFor(kind, fields, String(path[0])) || offered.includes(name),
        )
        .map(({ name }) => name)
        .filter((name) => !offered.includes(name) && !keys(asking).includes(name));
      expect(left).toEqual([]);
      // A note is never asked for, and a plain record takes few questions.
      expect(offered).toContain('note');
      expect(new Set(keys(asking)).size).toBeLessThan(11);
    },
  );
});
