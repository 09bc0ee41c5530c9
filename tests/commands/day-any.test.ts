import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { dayNumber, dayFromNumber } from '../../src/number/date.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { dayFigures } from '../../src/reckon/day.ts';
import { flow } from '../../src/reckon/flow.ts';
import { displayWidth } from '../../src/render/terminal/width.ts';
import { piecesTable } from '../../src/report/pieces.ts';
import { holds } from '../helpers/law.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { inGit } from '../helpers/git.ts';
import { HILL_STREET, dayIn } from '../helpers/hill-street.ts';
import { randomStudio } from '../helpers/random-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { withStudio } from '../helpers/write-studio.ts';

interface Envelope {
  readonly report: string;
  readonly asOf: string;
  readonly columns: readonly { readonly key: string }[];
  readonly rows: readonly Readonly<Record<string, unknown>>[];
}

describe('the rows for programs', () => {
  it('have a section each, with figures in full, in the usual envelope', async () => {
    const folder = inGit(tempStudio({ ...HILL_STREET, '.gitignore': '.saggar/\n' }));
    const { out } = await dayIn(folder, '2026-03-12', { as: 'json' });
    const { report, asOf, columns, rows } = JSON.parse(out) as Envelope;
    expect({ report, asOf }).toEqual({ report: 'day', asOf: '2026-03-12' });
    expect(columns.map(({ key }) => key)).toEqual(Object.keys(rows[0] ?? {}));
    const said = rows.map((row) =>
      columns
        .filter(({ key }) => key !== 'says' && row[key] !== null)
        .map(({ key }) => String(row[key]))
        .join(' '),
    );
    expect(said).toEqual([
      'recorded pieces 1 10',
      'recorded sales 2 50.00',
      'recorded consigned 1 4',
      'greenware p2 Bowl bisque 8 16 2026-03-10 2',
      'greenware p3 Mug bisque 10 10 2026-03-12 0',
      'bisqueware p1 Mug glaze 4 4 2026-03-11 1',
      'ready mug Mug first 6',
      'ready mug Mug second 2',
      'kiln-load kiln Kiln bisque 26 30 0.866666666667',
      'kiln-load kiln Kiln glaze 4 30 0.133333333333',
      'to-order clay White clay order-now 12 kg 2026-03-10',
      'at-galleries gallery Gallery Nord 4',
      'owed-to-you s2 Kitchen shop 30.00 2026-03-12',
      'you-owe b1 Clay Co 40.00 2026-03-01',
      'problems errors 0',
      'problems warnings 0',
      'uncommitted files 0',
      'next saggar materials',
    ]);
  });

  it('are laid out as the text is in Markdown, and are all in CSV', async () => {
    const folder = tempStudio(HILL_STREET);
    const markdown = (await dayIn(folder, '2026-03-12', { as: 'markdown' })).out;
    expect(markdown).toBe(`# The day's end

Hill Street · Thursday 2026-03-12 · EUR

Order White clay today: 12 kg left, for 5 days.

    saggar materials

## Recorded today

- 2 sales for 50.00
- 1 lot of 10 pieces
- 1 consignment of 4 pieces

## Greenware

18 pieces in 2 lots:

- Bowl (8, for 2 days)
- Mug (10, since today)

## Bisqueware

4 pieces waiting for glaze:

- Mug (4, for 1 day)

## Ready to sell

6 firsts and 2 seconds:

- Mug (6, 2 seconds)

## Next bisque

86% of Kiln (26 of 30).

## Next glaze

13% of Kiln (4 of 30).

## To order now

- White clay (12 kg, 5 days left)

## At galleries

4 pieces:

- Gallery Nord

## Owed to you

30\\.00:

- Kitchen shop (since 2026-03-12)

## You owe

40\\.00:

- Clay Co (since 2026-03-01)

## The book

No problems.
`);
    const csv = (await dayIn(folder, '2026-03-12', { as: 'csv' })).out;
    expect(csv).toContain('owed-to-you,s2,Kitchen shop,,,,,,,30.00,,2026-03-12,,,');
  });
});

/** A day of a studio's life, or a little before and after it. */
function anyDay(asOf: string, days: number): fc.Arbitrary<string> {
  const last = dayNumber(asOf);
  return fc.integer({ min: last - days - 3, max: last + 3 }).map(dayFromNumber);
}

const studioAndDay = randomStudio({ days: 120, breaks: 'some' }).chain((studio) =>
  anyDay(studio.asOf, studio.plan.days).map((day) => ({ studio, day })),
);

describe('any studio on any day', () => {
  it('fits on one screen with what stands below it, and no line is wider than that', async () => {
    await holds(
      fc.asyncProperty(studioAndDay, async ({ studio, day }) => {
        const said = await withStudio(studio.files, (folder) => dayIn(folder, day));
        const lines = said.out.replace(/\n$/, '').split('\n');
        const below = said.err === '' ? 0 : Math.ceil(displayWidth(said.err.trimEnd()) / 80);
        expect(lines.length + below).toBeLessThanOrEqual(24 - 1);
        for (const line of lines) expect(displayWidth(line)).toBeLessThanOrEqual(80);
      }),
      6,
    );
  });

  it('has the pieces that the report on pieces has', async () => {
    await holds(
      fc.asyncProperty(studioAndDay, async ({ studio, day }) => {
        const book = await withStudio(studio.files, (folder) => bookOf(folder, day));
        const flows = flow(book, day);
        const { totals = {} } = piecesTable(book, flows, 'product');
        const figures = dayFigures(book, flows);
        const waiting = (isGreen: boolean): number =>
          total(
            figures.waiting
              .filter(({ stage }) => (stage === 0) === isGreen)
              .map(({ count }) => count),
          );
        expect({
          greenware: waiting(true),
          bisqueware: waiting(false),
          first: total(figures.ready.map(({ first }) => first)),
          second: total(figures.ready.map(({ second }) => second)),
          atGalleries: total(figures.atGalleries.map(({ first, second }) => first + second)),
        }).toEqual({
          greenware: totals['greenware'],
          bisqueware: totals['bisqueware'],
          first: totals['first'],
          second: totals['second'],
          atGalleries: totals['atGalleries'],
        });
      }),
      6,
    );
  });
});

async function bookOf(folder: string, day: string): Promise<Book> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  return checkStudio(reading, day).book;
}

function total(counts: readonly number[]): number {
  return counts.reduce((all, count) => all + count, 0);
}
