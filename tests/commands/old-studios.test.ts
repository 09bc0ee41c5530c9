/** Studios of version 0.1.0 stay sound and keep their figures, but for what is listed here. */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  OLD_STUDIOS,
  asLines,
  askAgain,
  differences,
  oldAnswer,
  oldStudios,
  type Known,
  type Tolerance,
} from '../helpers/old-studios.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

/** Whether every amount has to be a whole number of minor units; ratios are never held to it. */
const WHOLE_CENTS = false;

/** How far figures of each report may be from the old ones; the first word of what is asked. */
const TOLERANCES: Readonly<Record<string, Tolerance>> = {
  check: { money: 0, ratio: 0, quantity: 0 },
  day: { money: 0, ratio: 1e-9, quantity: 0 },
  materials: { money: 0, ratio: 1e-9, quantity: 0 },
  firings: { money: 0, ratio: 1e-9, quantity: 0 },
  losses: { money: 0, ratio: 1e-9, quantity: 0 },
  income: { money: 0, ratio: 1e-9, quantity: 0 },
  pieces: { money: 0, ratio: 1e-9, quantity: 0 },
  costs: { money: 0, ratio: 1e-9, quantity: 0 },
  galleries: { money: 0, ratio: 1e-9, quantity: 0 },
  fairs: { money: 0, ratio: 1e-9, quantity: 0 },
  quarter: { money: 0, ratio: 1e-9, quantity: 0 },
};

/** Figures that are allowed to differ by more than that, each with its reason. */
const KNOWN: readonly Known[] = [];

/** The bytes of all that was put aside; another value means that something was edited. */
const AS_PUT_ASIDE = '84d7013e28fd048452ece957ef1d23125bde9184a2be87db993135cb7af59c7c';

/** Long years in decimals are slow; no test is about speed here. */
const PATIENCE = 180_000;

const STUDIOS = Object.entries(oldStudios());

function toleranceOf([report = '']: readonly string[]): Tolerance {
  const tolerance = TOLERANCES[report];
  if (tolerance === undefined) throw new Error(`no tolerance for ${report}`);
  return tolerance;
}

describe('a studio of version 0.1.0', () => {
  it.each(STUDIOS)(
    '%s says what it said',
    async (studio, { asOf, asked }) => {
      const folder = tempStudio(filesIn(join(OLD_STUDIOS, studio, 'studio')));
      const lines: string[] = [];
      for (const { args, answer } of asked) {
        const now = await askAgain(folder, args, asOf);
        const terms = { tolerance: toleranceOf(args), wholeCents: WHOLE_CENTS };
        const found = differences(oldAnswer(studio, answer), now, terms);
        const known = KNOWN.filter((one) => one.studio === studio && one.report === answer);
        lines.push(...asLines(found, known).map((line) => `${studio} ${answer}: ${line}`));
      }
      expect(lines).toEqual([]);
    },
    PATIENCE,
  );

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
