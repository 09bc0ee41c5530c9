/** Studios of version 0.1.0 stay sound and keep their figures, but for what is listed here. */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { asLines, differences, type Known } from '../helpers/old-answers.ts';
import { DOUBTED } from '../helpers/old-doubts.ts';
import { MISSING_PIECES } from '../helpers/old-missing.ts';
import { OLD_STUDIOS, askingOf, oldAnswer, oldStudios } from '../helpers/old-studios.ts';
import { isRecounted } from '../helpers/old-recounts.ts';
import { SHEET_YEARS, isByLaw } from '../helpers/old-law.ts';
import { toleranceAt } from '../helpers/old-tolerances.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';
import { some } from '../helpers/tier.ts';

/** Differences beyond what tolerances allow, each with its reason. */
/** A firing without a start or hours is now named where its tariff has bands: one note more. */
const WITHOUT_BANDS: readonly Known[] = [
  ['grown-jpy', 'firings.json'],
  ['grown-jpy', 'firings-from-2025-11-01-to-2026-03-15.json'],
  ['grown-jpy', 'firings-f250920dr.json'],
  ['grown-kwd', 'firings.json'],
  ['grown-kwd', 'firings-from-2025-11-01-to-2026-03-15.json'],
].map(([studio = '', report = '']) => ({
  ...{ studio, report, row: 'notes', column: 'count', old: '1', new: '2' },
  why: 'it says which firings were priced without the bands of their tariff',
}));

const KNOWN: readonly Known[] = [
  ...WITHOUT_BANDS,
  ...['', '-basis-accrual', '-2025-Q1', '-2025-Q2', '-2025-Q3', '-2026', '-2026-Q1'].map((asked) =>
    newDiscounts('example', `quarter${asked}.json`, '1'),
  ),
  newDiscounts('grown-kwd', 'quarter-2025-Q3.json', '2'),
  ...MISSING_PIECES,
  ...DOUBTED,
  ...SHEET_YEARS,
];

/** A row of discounts where there was none: all of the period are discounts of single lines. */
function newDiscounts(studio: string, report: string, sheetLine: string): Known {
  const why = "a line's own discount shows under discounts";
  const row = `Income, discounts, ${sheetLine}`;
  return { studio, report, row, column: 'row', old: 'none', new: 'there', why };
}

/** The bytes of all that was put aside; another value means that something was edited. */
const AS_PUT_ASIDE = '84d7013e28fd048452ece957ef1d23125bde9184a2be87db993135cb7af59c7c';

const STUDIOS = Object.entries(oldStudios());

describe('a studio of version 0.1.0', () => {
  it.each(STUDIOS)('%s says what it said', async (studio, { asOf, asked }) => {
    const folder = tempStudio(filesIn(join(OLD_STUDIOS, studio, 'studio')));
    const ask = askingOf(folder, asOf);
    const lines: string[] = [];
    for (const { args, answer } of some(asked, 8)) {
      const [report = ''] = args;
      const found = differences(oldAnswer(studio, answer), await ask(args), {
        toleranceOf: (column, row) => toleranceAt({ studio, report, answer, column, row }),
        wholeCents: true,
      });
      const known = KNOWN.filter((one) => one.studio === studio && one.report === answer);
      const others = found.filter(({ row }) => !isRecounted(answer, row) && !isByLaw(answer, row));
      lines.push(...asLines(others, known).map((line) => `${studio} ${answer}: ${line}`));
    }
    expect(lines).toEqual([]);
  });

  it.each(STUDIOS)('%s has every answer that it was asked for', (studio, { asked }) => {
    const answers = readdirSync(join(OLD_STUDIOS, studio, 'reports'));
    expect(asked.map(({ answer }) => answer).sort()).toEqual(answers.sort());
  });

  it('is as it was put aside', () => {
    const hash = createHash('sha256');
    for (const file of Object.keys(filesIn(OLD_STUDIOS)))
      hash.update(file).update(readFileSync(join(OLD_STUDIOS, file)));
    expect(hash.digest('hex')).toBe(AS_PUT_ASIDE);
  });
});

it('every known difference is of an answer that was put aside', () => {
  const asked = STUDIOS.flatMap(([studio, { asked }]) =>
    asked.map(({ answer }) => `${studio} ${answer}`),
  );
  expect(KNOWN.filter((one) => !asked.includes(`${one.studio} ${one.report}`))).toEqual([]);
});
