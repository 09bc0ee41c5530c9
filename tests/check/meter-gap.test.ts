/** What the check says of meters where a kiln was fired more than once on a day. */
import { expect, test } from 'vitest';
import { checkFiles } from '../helpers/check-files.ts';

/** A firing of each id on that day, with its readings where it has any. */
function told(...firings: readonly [id: string, day: string, readings?: string][]): string[] {
  const texts = firings.map(([id, day, readings]) => {
    const [before, after] = readings?.split('-') ?? [];
    const meter =
      before === undefined
        ? 'energy: 9 kWh'
        : `meter: { before: ${before}, after: ${String(after)} }`;
    return `${id}: { date: ${day}, kiln: front, kind: test, ${meter}, load: [{ outside: tiles, in: 1 }] }\n`;
  });
  const { findings } = checkFiles(
    {
      'studio.yaml': 'format: 1\nname: Lane End Pottery\ncurrency: USD\n',
      'kilns.yaml': 'front: { name: Front, fuel: electricity }\n',
      'tariffs.yaml': 't: { fuel: electricity, from: 2025-01-01, price: 0.3, per: kWh }\n',
      'firings.yaml': texts.join(''),
    },
    '2026-02-01',
  );
  return findings.map(({ rule, message }) => `${rule}: ${message}`);
}

const [DAY, NEXT] = ['2026-01-10', '2026-01-11'];

test('firings of a day follow each other as the meter tells, not by their ids', () => {
  expect(told(['fa', DAY, '160-220'], ['fb', DAY, '100-160'], ['fc', NEXT, '220-230'])).toEqual([]);
  expect(told(['fa', DAY, '160-220'], ['fb', DAY, '100-150'])).toEqual([
    'meter-gap: front starts at 160, but fb left it at 150, 10 kWh more',
  ]);
  // As text 90 would come after 100.
  expect(told(['fa', DAY, '100-110'], ['fb', DAY, '90-100'])).toEqual([]);
});

test('a firing of an earlier day comes before, whatever its meter says', () => {
  expect(told(['fa', NEXT, '100-160'], ['fb', DAY, '160-220'])).toEqual([
    'meter-gap: front starts at 100, but fb left it at 220, 120 kWh less',
  ]);
});

test('one without readings goes by its id, and nothing is said beside it', () => {
  expect(told(['fa', DAY, '100-160'], ['fb', DAY], ['fc', DAY, '170-220'])).toEqual([]);
  expect(told(['fb', DAY, '100-160'], ['fa', DAY], ['fc', NEXT, '161-220'])).toEqual([
    'meter-gap: front starts at 161, but fb left it at 160, 1 kWh more',
  ]);
});
