/** A change from a day on moves no figure before it. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { addDays } from '../../src/number/date.ts';
import { decimal } from '../../src/number/decimal.ts';
import { flow } from '../../src/reckon/flow.ts';
import { incomeFacts } from '../../src/reckon/sales/income.ts';
import { saleMoney } from '../../src/reckon/sales/sale-money.ts';
import { costsTable } from '../../src/report/costs.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';

const MORE = decimal('1.37');
const BEGINNING = '0000-01-01';

/** Fields that are another from the day on, by the kind of definition. */
const CHANGES = {
  products: [
    { minutes: MORE },
    { space: MORE },
    { price: MORE },
    { fired: ['once'] },
    { without: ['clay', 'glazes', 'packing'] },
  ],
  channels: [
    { commission: decimal('0.31') },
    { feePercent: decimal('0.07'), feeEach: MORE },
    { taxIncluded: decimal('0.11') },
    { taxPlace: 'elsewhere' },
  ],
  classes: [{ sessions: 3 }, { without: ['meets'] }],
  studio: [{ labourRate: MORE }, { without: ['labour-rate'] }],
} as const;

type Changed = keyof typeof CHANGES;

/** The book with such a change in one of its definitions; which one is told by a number. */
function changedIn(
  book: Book,
  { kind, which, from }: { kind: Changed; which: number; from: Day },
): Book {
  const change = { from, ...CHANGES[kind][which % CHANGES[kind].length] };
  const withChange = (one: object): object => {
    const { changes = [] } = one as { changes?: readonly { from: Day }[] };
    return { ...one, changes: [...changes.filter((each) => each.from !== from), change] };
  };
  if (kind === 'studio') return { ...book, studio: withChange(book.studio) as Book['studio'] };
  const all: ReadonlyMap<string, object> = book[kind];
  const ids = [...all.keys()];
  const id = ids[which % Math.max(ids.length, 1)] ?? '';
  const one = all.get(id);
  return one ? { ...book, [kind]: new Map([...all, [id, withChange(one)]]) } : book;
}

/** All that the book came to before a day, as it is looked at on a later one. */
function before(book: Book, day: Day, asOf: Day): unknown {
  const flows = flow(book, asOf);
  const last = addDays(day, -1);
  return {
    stock: [...flows.stock.movements].filter((each) => each.day < day),
    ware: [...flows.ware.facts].filter((each) => each.day < day),
    income: incomeFacts(book, flows, { from: BEGINNING, to: last }),
    sales: [...book.sales.values()]
      .filter((sale) => sale.date < day)
      .map((sale) => saleMoney(book, sale)),
    costs: costsTable(book, flow(book, last), { span: { from: BEGINNING, to: last }, by: 'space' }),
  };
}

it('holds for whatever definition, field and day', async () => {
  const kinds = fc.constantFrom<Changed>('products', 'channels', 'classes', 'studio');
  const cases = fc.tuple(studioPlan({ days: 120 }), part, kinds, fc.nat(40));
  let moved = 0;
  const property = fc.asyncProperty(cases, async ([plan, when, kind, which]) => {
    const { asOf } = growStudio(plan);
    const { book } = await openFiles(filesOf(plan, undefined), asOf);
    const from = dayIn(plan, when);
    // Changes of the same day that are there already would be another book.
    const old = changedIn(book, { kind, which, from: '9999-12-31' });
    const changed = changedIn(book, { kind, which, from });
    const text = (figures: unknown): string =>
      JSON.stringify(figures, (_, value: unknown) =>
        typeof value === 'bigint' ? String(value) : value,
      );
    expect(text(before(changed, from, asOf))).toBe(text(before(old, from, asOf)));
    const ever = addDays(asOf, 400);
    if (text(before(changed, ever, asOf)) !== text(before(old, ever, asOf))) moved += 1;
  });
  await holds(property, 4);
  // Or it would be no test of anything.
  expect(moved).toBeGreaterThan(0);
});
