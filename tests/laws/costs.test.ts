/** The cost of a piece is all of its parts, and overhead falls on what was fired or worked, to the last of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../src/book.ts';
import { OVERHEAD_BASES, type OverheadBasis } from '../../src/groups.ts';
import { type Span, addDays } from '../../src/number/date.ts';
import { ZERO, decimal, isDecimal, sum, type Decimal } from '../../src/number/decimal.ts';
import { NO_MONEY, decimalOf, total } from '../../src/number/money.ts';
import { booked, digitsOf } from '../../src/reckon/booked.ts';
import { flow } from '../../src/reckon/flow.ts';
import { minutesOfLot } from '../../src/reckon/ware/lot-making.ts';
import { stepsOf } from '../../src/reckon/costs/lot-steps.ts';
import { overheadOf, overheadOfLine, overheadOfMaking } from '../../src/reckon/costs/overhead.ts';
import { productCosts } from '../../src/reckon/costs/product-cost.ts';
import { productCostTable } from '../../src/report/product-cost.ts';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

interface Case {
  readonly book: Book;
  readonly asOf: string;
  readonly span: Span;
}

async function caseOf([plan, days]: readonly [StudioPlan, number]): Promise<Case> {
  const { asOf } = growStudio(plan);
  const { book } = await openFiles(filesOf(plan, undefined), asOf);
  return { book, asOf, span: { from: addDays(asOf, -days), to: asOf } };
}

const cases = fc.tuple(studioPlan({ breaks: 'some' }), fc.integer({ min: 5, max: 120 }));

/** Ratios are kept to 12 decimals, each by itself, so that together they may be some of the last apart. */
const TRACE = decimal('0.00000000001');

function expectTogether(parts: readonly Decimal[], whole: Decimal): void {
  expect(
    sum(parts).minus(whole).abs().lt(TRACE),
    `${sum(parts).toFixed()} ${whole.toFixed()}`,
  ).toBe(true);
}

describe('the cost of a piece', () => {
  it('is its parts, as it is kept and in the report', async () => {
    const property = fc.asyncProperty(
      cases,
      fc.constantFrom(...OVERHEAD_BASES),
      async (one, by) => {
        const { book, asOf, span } = await caseOf(one);
        const flows = flow(book, asOf);
        const { products } = productCosts(book, flows, { span, by });
        expect(products.map(({ product }) => product.id)).toEqual([...book.products.keys()].sort());
        for (const { product, cost } of products) {
          const parts = [...Object.values(cost.parts), cost.uplift];
          expectTogether(parts, cost.total);
          const table = productCostTable(book, flows, { product: product.id, span, by });
          const cells = (table?.rows ?? []).map(({ cost: cell = null }) => cell).filter(isDecimal);
          expectTogether(cells, cost.total);
          expect(String(table?.totals?.['cost'])).toBe(cost.total.toString());
        }
      },
    );
    await holds(property, 3);
  });

  it('is not raised by losses where none are, and never lowered by more of them', async () => {
    const property = fc.asyncProperty(cases, async (one) => {
      const { book, asOf, span } = await caseOf(one);
      const flows = flow(book, asOf);
      const { products, overhead } = productCosts(book, flows, { span, by: 'space' });
      for (const { cost, tenths, lots, estimated } of products) {
        const more = tenths.find(({ of }) => of === 'losses')?.total;
        if (more) expect(more.gte(cost.total)).toBe(true);
        if (estimated) continue;
        const steps = stepsOf(book, overhead, lots);
        if (steps.every(({ lost }) => lost.isZero())) expect(cost.uplift.toFixed()).toBe('0');
        expect(cost.uplift.gte(ZERO)).toBe(true);
      }
    });
    await holds(property, 3);
  });
});

describe('overhead', () => {
  it('falls on all that was fired or worked in the span, to the last of it', async () => {
    const property = fc.asyncProperty(
      cases,
      fc.constantFrom(...OVERHEAD_BASES),
      async (one, by) => {
        const { book, asOf, span } = await caseOf(one);
        const overhead = overheadOf(book, flow(book, asOf), { span, by });
        const fell = fallen(book, { span, by, overhead });
        if (overhead.over.isZero()) expect(fell).toBe('0.000000000000');
        else expect(fell).toBe(decimalOf(overhead.total, digitsOf(book)).toFixed(12));
      },
    );
    await holds(property, 5);
  });

  it('and what was kept out of it are the expenses that are no cost of selling', async () => {
    const property = fc.asyncProperty(cases, async (one) => {
      const { book, asOf, span } = await caseOf(one);
      const kept = overheadOf(book, flow(book, asOf), { span, by: 'space' });
      const selling = 'advertising booth car commissions freight-out meals travel'.split(' ');
      const running = [...book.spent.values()].filter(
        ({ date, channel, fair, for: category }) =>
          date >= span.from && date <= span.to && !(channel ?? fair) && !selling.includes(category),
      );
      const parts = [kept.total, kept.energyPaid, kept.wearPaid, kept.workPaid];
      expect(total(parts)).toBe(total(running.map(({ amount }) => booked(book, amount))));
      expect(kept.total >= NO_MONEY).toBe(true);
    });
    await holds(property, 5);
  });
});

interface Fallen {
  readonly span: Span;
  readonly by: OverheadBasis;
  readonly overhead: ReturnType<typeof overheadOf>;
}

/** What falls on every load line and lot of the span together. */
function fallen(book: Book, { span, overhead }: Fallen): string {
  const isIn = ({ date }: { date: string }): boolean => date >= span.from && date <= span.to;
  const lines = [...book.firings.values()]
    .filter(isIn)
    .flatMap((firing) =>
      firing.load.map((line) => overheadOfLine(book, overhead, { firing, line })),
    );
  const lots = [...book.pieces.values()]
    .filter(isIn)
    .map((lot) => overheadOfMaking(overhead, minutesOfLot({ book }, lot)));
  return sum([...lines, ...lots]).toFixed(12);
}
