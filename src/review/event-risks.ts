/** What is risky in a change of a record of some day. */
import type { Book, Entry, Firing, Lot, Sale } from '../book.ts';
import { guideTemperature } from '../number/cone.ts';
import { addDays, type Day } from '../number/date.ts';
import { invoicesMoved } from '../reckon/sales/issued.ts';
import { quarterOn } from '../reckon/tax/tax-period.ts';
import type { RecordChange } from './changes.ts';
import { dayOfRecord, isEvent, moneyDays } from './days.ts';
import type { FieldChange } from './fields.ts';
import { fieldReach } from './reach.ts';
import type { Reason, RiskWhy } from './reasons.ts';
import { isQuantity } from './value.ts';
import { fieldSentence, fieldWords, type Speech } from './words.ts';

/** The reasons to look at a change of an event; `losses` tells whether all losses together are as they were. */
export function eventReasons(
  speech: Speech,
  change: RecordChange,
  { isAsLost }: { readonly isAsLost: boolean },
): Reason[] {
  if (!isEvent(change.kind)) return [];
  const sentences = (why: RiskWhy, fields: readonly FieldChange[]): Reason[] =>
    fields.map((field) => ({ why, text: fieldSentence(fieldWords(speech, change, field)) }));
  return [
    ...sentences('unit-changed', change.fields.filter(isOtherUnit)).map(({ why, text }) => {
      return { why, text: `${text}: the unit is another, the number is the same` };
    }),
    ...change.fields.flatMap((field) => coneReasons(speech, change, field)),
    ...sentences('losses-edited', isAsLost ? [] : changedLosses(change)),
    ...invoiceReasons(speech, change),
    ...quarterReasons(speech.now.book, change),
    ...sentences(
      'tax-or-account',
      change.fields.filter((field) => isOfAccount(change, field)),
    ),
  ];
}

/** 500 lb → 500 kg. */
function isOtherUnit({ before, after }: FieldChange): boolean {
  if (!isQuantity(before) || !isQuantity(after)) return false;
  return before.unit !== after.unit && before.value.eq(after.value);
}

const CONES: ReadonlySet<unknown> = new Set(['cone', 'cone-seen']);

/** How much hotter a large cone goes down at 150 °C an hour; a guide, for other rates give other temperatures. */
function coneReasons(speech: Speech, change: RecordChange, field: FieldChange): Reason[] {
  const { path, before, after } = field;
  if (!CONES.has(path.at(-1)) || typeof before !== 'string' || typeof after !== 'string') return [];
  const [was, is] = [guideTemperature(before), guideTemperature(after)];
  const hotter = was === undefined || is === undefined ? 0 : is - was;
  const words =
    hotter === 0 ? '' : `, about ${Math.abs(hotter)} °C ${hotter > 0 ? 'hotter' : 'cooler'}`;
  const sentence = fieldSentence(fieldWords(speech, change, field));
  return [{ why: 'cone-changed', text: `${sentence}${words}` }];
}

const OUTCOME_KEYS: ReadonlySet<string | number> = new Set(['first', 'second', 'lost', 'in']);

/** Outcomes of a firing that were written down before and are others now; losses of a lot's making too. */
function changedLosses({ kind, before, fields }: RecordChange): readonly FieldChange[] {
  if (kind === 'pieces')
    return fields.filter(({ path, before: was }) => path[0] === 'lost' && was !== undefined);
  if (kind !== 'firings' || !before) return [];
  const { load } = before as Firing;
  if (load.every(({ first, lost }) => first === undefined && lost === undefined)) return [];
  const outcomes = fields.filter(
    ({ path }) => path[0] === 'load' && (path.length === 2 || OUTCOME_KEYS.has(path[2] ?? '')),
  );
  // What was lost is what they are edited for.
  return outcomes.sort((one, other) => Number(isLost(other)) - Number(isLost(one)));
}

function isLost({ path }: FieldChange): boolean {
  return path[2] === 'lost';
}

/** Whether just as many pieces of each product are good, seconds and lost as before: a lot was only split. */
export function losesTheSame(
  { old, now }: { readonly old: Book; readonly now: Book },
  changes: readonly RecordChange[],
): boolean {
  const before = changes.flatMap((each) => outcomesIn(old, each.kind, each.before));
  const after = changes.flatMap((each) => outcomesIn(now, each.kind, each.after));
  return JSON.stringify(summed(before)) === JSON.stringify(summed(after));
}

type OutcomeCount = readonly [what: string, count: number];

function outcomesIn(
  book: Book,
  kind: RecordChange['kind'],
  entry: Entry | undefined,
): OutcomeCount[] {
  if (!entry) return [];
  if (kind === 'pieces') {
    const { product, lost = [] } = entry as Lot;
    return lost.map(({ count }): OutcomeCount => [`${product} made lost`, count]);
  }
  if (kind !== 'firings') return [];
  const { id, load } = entry as Firing;
  return load.flatMap((line) => {
    const of = line.lot === undefined ? '' : (book.pieces.get(line.lot)?.product ?? line.lot);
    return (['first', 'second', 'lost'] as const).map((key): OutcomeCount => {
      return [`${id} ${of} ${key}`, line[key] ?? 0];
    });
  });
}

function summed(outcomes: readonly OutcomeCount[]): [string, number][] {
  const sums = new Map<string, number>();
  for (const [what, count] of outcomes) sums.set(what, (sums.get(what) ?? 0) + count);
  return [...sums]
    .filter(([, count]) => count !== 0)
    .sort(([one], [other]) => (one < other ? -1 : 1));
}

/** That what is on an invoice which has gone out is another now. */
function invoiceReasons({ old, now }: Speech, { kind, before }: RecordChange): Reason[] {
  const { number } = kind === 'sales' ? ((before ?? {}) as Partial<Sale>) : {};
  if (number === undefined) return [];
  return invoicesMoved(old.book, now.book)
    .filter(({ sale }) => sale.id === before?.id)
    .map(({ became }): Reason => {
      return { why: 'invoice-moved', text: `its invoice ${number} has gone out, and is ${became}` };
    });
}

function quarterReasons(
  { studio: { yearStarts } }: Book,
  { before, after }: RecordChange,
): Reason[] {
  if (!before || !after) return [];
  return moneyDays(before).flatMap(([key, was]) => {
    const now = moneyDays(after).find(([other]) => other === key)?.[1];
    const [from, to] = [was, now].map((day) =>
      day === undefined ? undefined : quarterOn(day, yearStarts),
    );
    if (!from || !to || from.name === to.name) return [];
    const text = `${key} ${was} → ${now ?? ''}, from ${from.name} to ${to.name}`;
    return [{ why: 'quarter-changed' as const, text }];
  });
}

/** Fields that say where money is put: the account, the channel, the tax and its place. */
const ACCOUNTS: Readonly<Partial<Record<RecordChange['kind'], ReadonlySet<unknown>>>> = {
  spent: new Set(['for', 'tax-place']),
  sales: new Set(['channel', 'tax', 'tax-place', 'tax-included']),
  advances: new Set(['channel', 'for']),
};

function isOfAccount({ kind, before, after }: RecordChange, { path: [key] }: FieldChange): boolean {
  return before !== undefined && after !== undefined && (ACCOUNTS[kind]?.has(key) ?? false);
}

/** A record older than this counts as an old one; in days. */
const OLD_AGE = 31;

/** That an old record was edited, in more than a note. */
export function oldRecord({ kind, became, before, fields }: RecordChange, asOf: Day): Reason[] {
  const day = dayOfRecord(before);
  const isOld = day !== undefined && isEvent(kind) && day < addDays(asOf, -OLD_AGE);
  const isMore = fields.some(({ path: [key = ''] }) => fieldReach(kind, String(key)) !== 'nowhere');
  if (became !== 'changed' || !isOld || !isMore) return [];
  return [{ why: 'old-record', text: `a record of ${day} was edited` }];
}
