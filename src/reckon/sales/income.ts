/** What was earned in a period: by product, channel, month, class or buyer, down to the margin. */
import { factsDuring, isAmong, recordsDated } from '../../among.ts';
import type { Book, Day, LoadLine } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { addTo } from '../../grouping.ts';
import type { IncomeGroup } from '../../groups.ts';
import { type Span, monthOf } from '../../number/date.ts';
import { NO_MONEY, opposite } from '../../number/money.ts';
import { advanceFacts } from './advance.ts';
import { totalOf } from '../costs/cost.ts';
import { countsOn, type EarnedLine, type SoldSale } from './earned.ts';
import { enrolmentParts, meetingsOf } from './enrolment.ts';
import {
  NOTHING_EARNED,
  incomeTotal,
  type Basis,
  type IncomeFact,
  type IncomeMoney,
  type ItemKind,
} from './income-fact.ts';
import { isBeforeStart } from '../stock/opening.ts';
import { missingFacts } from './debts.ts';
import { soldFacts } from './sold-facts.ts';
import { firingsOn, type Flows } from '../flows.ts';

/** Income of one group. */
export interface IncomeRow extends IncomeMoney {
  readonly item: string;
  readonly kind: ItemKind | undefined;
  readonly facts: readonly IncomeFact[];
}

/**
 * Every line of income in the period, with what classes and others cost in it; nothing that is later
 * than the flows' day, a payment neither. On the cash basis a sale, and what is owed for missing pieces,
 * counts on the day it is paid, and an advance when it comes in. On the accrual basis these count on
 * their date, an enrolment meeting by meeting, and an advance when a sale uses it. The basis is the studio's unless another is given.
 */
export function incomeFacts(
  book: Book,
  flows: Flows,
  { from, to, basis = book.studio.basis ?? 'cash' }: Span & { readonly basis?: Basis },
): IncomeFact[] {
  const { asOf } = flows.stock;
  const period = { from, to };
  const context = { book, flows, period, basis };
  const sold = [...factsDuring(flows.ware.sales, period)].flatMap((sale) =>
    saleFacts(context, sale),
  );
  const advances = advanceFacts(book, { basis, asOf });
  const missing = missingFacts(book, { basis, asOf });
  return [
    ...[...sold, ...advances, ...missing].filter(({ day }) => day <= asOf && isAmong(day, period)),
    ...usedFacts(flows, period, book),
    ...firedFacts(flows, period),
    ...factsBeforeStart(book, period, asOf),
  ];
}

/** Facts summed up by group, in the order of the items' names. */
export function incomeRows(facts: readonly IncomeFact[], by: IncomeGroup): IncomeRow[] {
  const groups = new Map<string, IncomeFact[]>();
  for (const fact of facts) {
    const key = groupOf(fact, by);
    if (key !== undefined) addTo(groups, key, fact);
  }
  const keys = [...groups.keys()].sort();
  return keys.map((key) => incomeRow(key, groups.get(key) ?? [], by));
}

interface SaleContext {
  readonly book: Book;
  readonly flows: Flows;
  readonly period: Span;
  readonly basis: Basis;
}

/** What a sale earns; on the accrual basis its class lines on other days too, whatever the period. */
function saleFacts({ book, flows, period, basis }: SaleContext, sale: SoldSale): IncomeFact[] {
  const isSpread = basis === 'accrual' && sale.lines.some(({ kind }) => kind === 'class');
  const day = countsOn(sale, basis);
  if (day === undefined || !(isSpread || isAmong(day, period))) return [];
  const facts = soldFacts(flows, sale, { book, day });
  return facts.flatMap(({ fact, line }) => (isSpread && line ? spread(book, line, fact) : [fact]));
}

/** A class line meeting by meeting; places and fees count on the sale's own date. */
function spread(book: Book, line: EarnedLine, whole: IncomeFact): IncomeFact[] {
  const { day } = whole;
  const taught = line.kind === 'class' ? inForce(book.classes.get(line.item), day) : undefined;
  if (!taught) return [whole];
  const parts = enrolmentParts(meetingsOf(taught), day, line);
  const onItsDate = { ...whole, gross: NO_MONEY, discounts: NO_MONEY, returns: NO_MONEY };
  const later = { ...onItsDate, ...NOTHING_EARNED };
  return [onItsDate, ...parts.map((part) => ({ ...later, ...part }))];
}

/** Materials used for classes in the period. */
function usedFacts(flows: Flows, period: Span, book: Book): IncomeFact[] {
  return [...factsDuring(flows.stock.movements, period)]
    .filter((movement) => movement.reason === 'used' && isAmong(movement.day, period))
    .flatMap(({ for: id = '', day, by, value }) =>
      book.classes.has(id) ? [costFact('class', id, { day, by, cost: opposite(value) })] : [],
    );
}

/** What classes and customers bear of the firings in the period. */
function firedFacts(flows: Flows, period: Span): IncomeFact[] {
  return firingsOn(flows.ware, period).flatMap(({ firing, shares }) =>
    firing.load.flatMap((line, index) => {
      const cost = totalOf(shares[index] ?? {});
      return firedFact(line, { day: firing.date, by: firing.id, cost });
    }),
  );
}

/** What classes and customers took before the book starts has a cost that is not known. */
function factsBeforeStart(book: Book, period: Span, asOf: Day): IncomeFact[] {
  if (book.studio.starts === undefined) return [];
  const isMeant = ({ date }: { readonly date: Day }): boolean =>
    isBeforeStart(book, date) && date <= asOf;
  const used = recordsDated(book.used, period)
    .filter(isMeant)
    .flatMap(({ date: day, id: by, for: id = '' }) =>
      book.classes.has(id) ? [costFact('class', id, { day, by, cost: NO_MONEY })] : [],
    );
  const fired = recordsDated(book.firings, period)
    .filter(isMeant)
    .flatMap(({ date: day, id: by, load }) =>
      load.flatMap((line) => firedFact(line, { day, by, cost: NO_MONEY })),
    );
  return [...used, ...fired].map((fact) => ({ ...fact, unknown: true }));
}

/** What a class or a customer bears; a lot has it among its own costs. */
function firedFact({ lot, class: taught }: LoadLine, bearer: Bearer): IncomeFact[] {
  if (lot !== undefined) return [];
  const kind = taught === undefined ? 'outside' : 'class';
  return [costFact(kind, taught ?? kind, bearer)];
}

/** What bears a cost. */
type Bearer = Pick<IncomeFact, 'day' | 'by' | 'cost'>;

function costFact(kind: ItemKind, item: string, { day, by, cost }: Bearer): IncomeFact {
  return { ...NOTHING_EARNED, day, kind, item, channel: undefined, buyer: undefined, by, cost };
}

/** The group's key with the kind of item before it, so that a class and a product never fall together. */
function groupOf(fact: IncomeFact, by: IncomeGroup): string | undefined {
  switch (by) {
    case 'product':
      return `${fact.kind} ${fact.item}`;
    case 'class':
      return fact.kind === 'class' ? `${fact.kind} ${fact.item}` : undefined;
    case 'channel':
      return fact.channel ?? '';
    case 'month':
      return monthOf(fact.day);
    case 'buyer':
      return fact.buyer ?? '';
  }
}

function incomeRow(key: string, facts: readonly IncomeFact[], by: IncomeGroup): IncomeRow {
  const isItem = by === 'product' || by === 'class';
  const item = isItem ? (facts[0]?.item ?? key) : key;
  const kind = isItem ? facts[0]?.kind : undefined;
  return { item, kind, ...incomeTotal(facts), facts };
}
