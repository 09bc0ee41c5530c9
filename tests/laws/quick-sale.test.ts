/** A sale that is vouched for without the whole book is what a look at the whole book makes of it. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { checkStudio } from '../../src/check/check.ts';
import { planAdd, type AddPlan } from '../../src/entry/add.ts';
import { effectLines } from '../../src/entry/effect.ts';
import { expandRecord } from '../../src/entry/expand.ts';
import { bookEnd } from '../../src/entry/find-end.ts';
import { holdingsOf } from '../../src/entry/holdings.ts';
import { lexiconOf } from '../../src/entry/lexicon.ts';
import type { OpenedStudio, Plan } from '../../src/entry/plan.ts';
import { NAMED_BY_SALES, planQuickSale, type Outline } from '../../src/entry/quick-sale.ts';
import type { RawMap } from '../../src/read/raw.ts';
import { readStudio } from '../../src/read/read.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { withStudio } from '../helpers/write-studio.ts';
import { PATIENCE, holds } from './support/law.ts';
import {
  HAPPENINGS,
  dayAfter,
  happened,
  saleChoice,
  typedSale,
  wrapped,
} from './support/quick-sales.ts';

async function open(folder: string, asOf: string): Promise<OpenedStudio> {
  const reading = await readStudio(folder, { store: undefined });
  if ('refused' in reading) throw new Error(reading.refused);
  return { folder, reading, asOf, ...checkStudio(reading, asOf) };
}

function asKept<T>(value: T): T {
  return JSON.parse(JSON.stringify(value)) as T;
}

const DEFINITIONS: readonly string[] = ['studio', ...NAMED_BY_SALES];

function outlineOf(opened: OpenedStudio): Omit<Outline, 'random'> {
  const { folder, asOf, reading, book, findings } = opened;
  return {
    folder,
    asOf,
    definitions: reading.files.filter(({ kind }) => DEFINITIONS.includes(kind)),
    salesFiles: reading.files.filter(({ kind }) => kind === 'sales').map(({ file }) => file),
    findings: asKept(findings),
    held: asKept(holdingsOf(book, asOf)),
    end: asKept(bookEnd(book)),
  };
}

async function wholeWay(
  opened: OpenedStudio,
  typed: RawMap,
  random: () => number,
): Promise<AddPlan | undefined> {
  const ground = { lexicon: lexiconOf(opened.reading.files), day: opened.asOf };
  const { fields, faults } = expandRecord('sales', typed, ground);
  if (faults.length > 0) return undefined;
  const plan = await planAdd(opened, {
    kind: 'sales',
    records: [{ id: undefined, fields }],
    random,
  });
  return 'refused' in plan ? undefined : plan;
}

/** All that comes of a plan: what is written, said and kept. */
function outcome(plan: Plan & Pick<AddPlan, 'added'>): unknown {
  const { changes, touched, problems, errors, findings, added, sides } = plan;
  const state = { held: plan.held(), holds: plan.holds() };
  const effect = effectLines({ ...sides, ...state }, touched);
  const kept = { findings, ...state, end: plan.end() };
  return asKept({ changes, touched, problems, errors, added, effect, kept });
}

/** A studio and what happens on its last day, the day that it is looked at, and sales. */
const cases = fc.record({
  plan: studioPlan({ days: 70 }),
  happenings: fc.oneof(
    { arbitrary: fc.constant([]), weight: 1 },
    { arbitrary: fc.subarray([...HAPPENINGS], { minLength: 1, maxLength: 3 }), weight: 3 },
  ),
  later: fc.constantFrom(0, 0, 1, 400),
  sales: fc.array(saleChoice, { minLength: 8, maxLength: 8 }),
});

it('is behind all that the mere passing of time could change', { timeout: PATIENCE }, async () => {
  const tally = { ahead: 0, found: 0 };
  const studios = fc.record({
    plan: studioPlan({ days: 60, breaks: 'some' }),
    happenings: fc.subarray([...HAPPENINGS], { maxLength: 3 }),
  });
  const settled = fc.asyncProperty(studios, async ({ plan, happenings }) => {
    const studio = growStudio(plan);
    const files = { ...studio.files, ...wrapped(studio), ...happened(studio, happenings) };
    await withStudio(files, async (folder) => {
      const { book, reading } = await open(folder, studio.asOf);
      const { settled: day } = bookEnd(book);
      const lookOn = (on: string): unknown => {
        const checked = checkStudio(reading, on);
        return [checked.findings, holdingsOf(checked.book, on)];
      };
      const then = lookOn(day);
      for (const days of [1, 40, 4000]) expect(lookOn(dayAfter(day, days))).toEqual(then);
      if (day > studio.asOf) tally.ahead += 1;
      tally.found += checkStudio(reading, day).findings.length;
    });
  });
  await holds(settled, 80);
  expect(tally.found).toBeGreaterThan(80);
  expect(tally.ahead).toBeGreaterThan(10);
});

it('is the same in whatever studio, and whatever sale', { timeout: PATIENCE }, async () => {
  const tally = { sound: 0, vouched: 0, beforeStocktake: 0 };
  const property = fc.asyncProperty(cases, async ({ plan, happenings, later, sales }) => {
    const studio = growStudio(plan);
    const files = { ...studio.files, ...wrapped(studio), ...happened(studio, happenings) };
    await withStudio(files, async (folder) => {
      const opened = await open(folder, dayAfter(studio.asOf, later));
      const outline = outlineOf(opened);
      for (const sale of sales) {
        const typed = typedSale(sale, studio, outline.held);
        const random = (): number => sale.chance;
        const quick = planQuickSale({ ...outline, random }, typed);
        const whole = await wholeWay(opened, typed, random);
        if (whole?.problems.length === 0) tally.sound += 1;
        if (!quick) continue;
        tally.vouched += 1;
        if (outline.end.uncounted.pieces.length > 0) tally.beforeStocktake += 1;
        expect(whole && outcome(whole)).toEqual(outcome(quick));
        expect(quick.problems).toEqual([]);
      }
    });
  });
  await holds(property, 150);
  // The others name lots and glazes, or come before what is in the book.
  expect(tally.vouched / tally.sound).toBeGreaterThan(0.4);
  expect(tally.vouched).toBeGreaterThan(120);
  expect(tally.beforeStocktake).toBeGreaterThan(20);
});
