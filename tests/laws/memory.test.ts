/** Whatever is remembered of whatever a studio went through: every answer is the one without a memory. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { loadCommand } from '../../src/commands/load.ts';
import type { Asked } from '../../src/commands/world.ts';
import { addDays } from '../../src/number/date.ts';
import { openMemory } from '../../src/read/kept/memory.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { storeIn } from '../helpers/memory.ts';
import { randomSource, type RandomSource } from '../helpers/random-source.js';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { withStudio } from '../helpers/write-studio.ts';
import { goOn } from './support/history.ts';
import { holds } from '../helpers/law.ts';

/** Something that is asked; `of` is a kind, of which one record is asked for. */
interface Question {
  readonly name: string;
  readonly of?: keyof RandomStudio['records'];
  readonly argument?: string;
  readonly options?: Asked['options'];
}

const QUESTIONS: readonly Question[] = [
  { name: 'check' },
  { name: 'day', options: { long: true } },
  { name: 'materials' },
  { name: 'materials', of: 'materials' },
  { name: 'materials', of: 'recipes' },
  { name: 'materials', options: { where: true, year: '2025' } },
  { name: 'materials', options: { where: true } },
  { name: 'firings' },
  { name: 'firings', of: 'firings' },
  { name: 'losses', options: { by: 'product' } },
  { name: 'losses', options: { by: 'cause' } },
  { name: 'losses', options: { by: 'month' } },
  { name: 'income', options: { by: 'month' } },
  { name: 'income', options: { by: 'class', year: '2025' } },
  { name: 'income', options: { by: 'channel' } },
  { name: 'income', options: { by: 'buyer' } },
  { name: 'pieces' },
  { name: 'pieces', options: { by: 'place' } },
  { name: 'costs' },
  { name: 'costs', of: 'products' },
  { name: 'quarter', argument: '2025-Q4' },
  { name: 'quarter', argument: '2026-Q1' },
  { name: 'quarter', argument: '2025' },
  { name: 'galleries' },
  { name: 'galleries', of: 'channels' },
  { name: 'fairs' },
  { name: 'fairs', of: 'fairs' },
];

const FORMS = ['json', 'json', 'json', 'text', 'csv', 'html'];

interface Case {
  readonly studio: RandomStudio;
  readonly random: RandomSource;
  readonly folder: string;
}

/** Asks on some day, with what is remembered and without. */
async function bothAnswers({ studio, random, folder }: Case): Promise<readonly [Said, Said]> {
  const { name, of, options, argument } = random.pick(QUESTIONS);
  const ids = of ? Object.keys(studio.records[of]) : [];
  const word = ids.length > 0 ? random.pick(ids) : argument;
  const asOf = addDays(studio.asOf, random.pick([0, 0, 0, 1, 30, -3, -20, -60]));
  const as = name === 'check' ? 'json' : random.pick(FORMS);
  const told = { words: word === undefined ? [] : [word], options: { ...options, as, asOf } };
  const command = await loadCommand(name);
  const remembered = await run(command, folder, told);
  return [remembered, await run(command, folder, { ...told, memory: 'none' })];
}

/** How many months are known of the studio, of whatever state. */
function monthsKnown(folder: string): number {
  const known = openMemory(folder, storeIn(folder)).recallMore('months');
  return (known as [{ readonly months: readonly unknown[] }] | undefined)?.[0].months.length ?? 0;
}

interface Tally {
  asked: number;
  known: number;
}

/** Once or twice, so that something is known the second time. */
async function askTwice(asked: Case, tally: Tally): Promise<void> {
  for (let left = asked.random.int(1, 2); left > 0; left -= 1) {
    if (monthsKnown(asked.folder) > 1) tally.known += 1;
    tally.asked += 1;
    const [remembered, anew] = await bothAnswers(asked);
    expect(remembered).toEqual(anew);
  }
}

const plans = studioPlan({ days: 120, breaks: 'some' });
const cases = fc.record({
  plan: plans,
  seed: fc.noShrink(fc.nat()),
  steps: fc.integer({ min: 5, max: 8 }),
});

it('is the same with a memory as without one, whatever came before', async () => {
  const tally = { asked: 0, known: 0 };
  const property = fc.asyncProperty(cases, async ({ plan, seed, steps }) => {
    const studio = growStudio(plan);
    const random = randomSource(seed, 'history');
    await withStudio(studio.files, async (folder) => {
      const history = { folder, until: studio.asOf, random, states: [] };
      for (let step = 0; step < steps; step += 1) {
        await askTwice({ studio, random, folder }, tally);
        await goOn(history);
      }
    });
  });
  await holds(property, 2);
  expect(tally.known).toBeGreaterThan(tally.asked / 3);
});
