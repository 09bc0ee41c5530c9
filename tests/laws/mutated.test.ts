/** Whatever is done to its files, a studio is checked and reported on, and problems lie where they say. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Place, Problem } from '../../src/problem.ts';
import { renderProblems } from '../../src/render/problems/problems.ts';
import { render } from '../../src/render/render.ts';
import { tableHead } from '../../src/report/head.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { holds } from '../helpers/law.ts';
import { mutate } from './support/mutated.ts';
import { checkedFiles } from './support/open.ts';
import { everyReport } from './support/reports.ts';

const FORMATS = ['text', 'json', 'csv', 'markdown', 'html'] as const;

/** What shows that a figure or a word was made of nothing. */
const NOTHING = /\bNaN\b|Infinity\b|\bundefined\b|\[object/;

/** Reports of one material or firing: too many to lay each of them out as text. */
const OF_ONE = /^(?:materials|firings) [a-z]/;

function placesOf({ place, related }: Problem): Place[] {
  return [place, ...related.map((other) => other.place)];
}

/** The text as it comes back from the disk: without byte order mark and halves of characters. */
function asRead(text: string): string {
  return Buffer.from(text)
    .toString()
    .replace(/^\uFEFF/, '');
}

/** Why a place is none: no such file, line or column. */
function misplaced({ file, line, column, width, source }: Place, files: Files): string[] {
  const text = files[file];
  if (text === undefined) return [`${file}: no such file`];
  const there = asRead(text).split('\n')[line - 1]?.replace(/\r$/, '');
  if (there === undefined) return [`${file}:${line}: no such line`];
  const isInside = column >= 1 && column <= there.length + 1 && width >= 1;
  const isWhole = source === '' && line === 1 && column === 1;
  if (isInside && (source === there || isWhole)) return [];
  return [`${file}:${line}:${column} (${width}): ${JSON.stringify([source, there])}`];
}

type Files = Readonly<Record<string, string>>;

describe('a studio whose files were spoilt', () => {
  it('is checked, with every problem inside its file, and reported on', async () => {
    const property = fc.asyncProperty(
      studioPlan({ days: 60, breaks: 'some' }),
      fc.noShrink(fc.nat()),
      async (plan, seed) => {
        const { files: sound, asOf } = growStudio(plan);
        const files = mutate(sound, seed);
        const { book, problems } = await checkedFiles(files, asOf);
        const wrong = problems.flatMap((problem) =>
          placesOf(problem).flatMap((place) => misplaced(place, files)),
        );
        expect(wrong).toEqual([]);
        const reports = Object.entries(everyReport(book, asOf));
        for (const as of FORMATS) {
          const options = { as, width: 80, colour: false };
          const check = await renderProblems(problems, tableHead(book, asOf), options);
          expect(check).not.toMatch(NOTHING);
          for (const [name, table] of reports.filter(
            ([name]) => as !== 'text' || !OF_ONE.test(name),
          ))
            expect(await render(table, options), name).not.toMatch(NOTHING);
        }
      },
    );
    await holds(property, 6);
  });
});
