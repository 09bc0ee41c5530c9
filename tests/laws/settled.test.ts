/** From the day on that a studio is settled, nothing is found or not found by the mere passing of time. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { holdingsOf } from '../../src/entry/effect.ts';
import { addDays } from '../../src/number/date.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { withStudio, type StudioFiles } from '../helpers/write-studio.ts';
import { takeIn } from '../../src/check/taken.ts';
import { holds } from '../helpers/law.ts';
import { cases } from '../helpers/tier.ts';

/** What may stand in a book for a day to come. */
const AHEAD = ['used', 'sold', 'fair', 'spent', 'counted', 'lot'] as const;

/** The files of it. */
function ahead(
  { asOf, records }: RandomStudio,
  all: readonly (typeof AHEAD)[number][],
): StudioFiles {
  const [material = ''] = Object.keys(records.materials);
  const [product = ''] = Object.keys(records.products);
  const [channel = ''] = Object.keys(records.channels);
  const day = addDays(asOf, 1);
  const texts = {
    used: {
      'used/later.yaml': `u-later:\n  date: ${day}\n  material: ${material}\n  quantity: 1 g\n`,
    },
    sold: {
      'sales/later.yaml': `s-later:\n  date: ${asOf}\n  paid: ${addDays(asOf, 9)}\n  channel: ${channel}\n  lines: [{ product: ${product}, count: 1, price: 15 }]\n`,
    },
    fair: { 'fairs/later.yaml': `k-later:\n  name: Fair\n  channel: ${channel}\n  date: ${day}\n` },
    spent: {
      'spent/later.yaml': `e-later:\n  date: ${addDays(asOf, 40)}\n  to: A\n  for: bank\n  amount: 1\n`,
    },
    counted: {
      'counted/later.yaml': `c-later:\n  date: ${day}\n  pieces: [{ product: ${product}, grade: first, count: 2 }]\n`,
    },
    lot: {
      'pieces/later.yaml': `p-later:\n  date: ${asOf}\n  product: ${product}\n  made: 3\n  lost: [{ date: ${addDays(asOf, 3)}, count: 1, why: dropped }]\n`,
    },
  };
  return Object.assign({}, ...all.map((each) => texts[each])) as StudioFiles;
}

it('on whatever later day it is looked at', async () => {
  const tally = { ahead: 0, found: 0 };
  const studios = fc.record({
    plan: studioPlan({ days: 60, breaks: 'some' }),
    coming: fc.subarray([...AHEAD]),
  });
  const settled = fc.asyncProperty(studios, async ({ plan, coming }) => {
    const studio = growStudio(plan);
    const files = { ...studio.files, ...ahead(studio, coming) };
    await withStudio(files, async (folder) => {
      const reading = await readStudio(folder, { memory: NO_MEMORY });
      if ('refused' in reading) throw new Error(reading.refused);
      const { settled: day } = takeIn(reading);
      const lookOn = (on: string): unknown => {
        const { book, findings } = checkStudio(reading, on);
        return [findings, holdingsOf(book, on)];
      };
      const then = lookOn(day);
      for (const days of [1, 40, 4000]) expect(lookOn(addDays(day, days))).toEqual(then);
      if (day > studio.asOf) tally.ahead += 1;
      tally.found += checkStudio(reading, day).findings.length;
    });
  });
  await holds(settled, 6);
  expect(tally.found).toBeGreaterThan(cases(6) / 2);
  expect(tally.ahead).toBeGreaterThan(cases(6) / 6);
});
