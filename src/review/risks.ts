/** What a reviewer should look at first: the changes that are most likely to be wrong, and why. */
import type { Book, Day, Entry, Firing, Kind } from '../book.ts';
import { DOUBTS } from '../check/rules.ts';
import { addDays } from '../number/date.ts';
import type { Finding } from '../problem.ts';
import { quarterOn } from '../reckon/tax/tax-period.ts';
import type { RecordChange } from './changes.ts';
import type { ClosedChange } from './closed.ts';
import { dayOfRecord, isEvent, paidDays } from './days.ts';
import type { FieldChange } from './fields.ts';
import { factorText, type OutOfScale } from './scale.ts';
import { valueText } from './value.ts';
import { fieldSentence, fieldWords, writingOf, type Speech } from './words.ts';

/** Why a change may be wrong, the riskiest first. */
const RISKS = [
  'closed-period',
  'filed-moved',
  'removed',
  'doubled',
  'out-of-scale',
  'below-zero',
  'losses-edited',
  'quarter-changed',
  'faulty',
  'price-or-recipe',
  'old-record',
  'renamed',
] as const;

export type RiskWhy = (typeof RISKS)[number];

/** One reason to look. */
export interface Reason {
  readonly why: RiskWhy;
  /** A part of a sentence: `price 40.00 → 4.00, 1/10 of what it was`. */
  readonly text: string;
}

/** A change with all that speaks against it, the strongest reason first. */
export interface Risk {
  readonly change: RecordChange;
  readonly reasons: readonly Reason[];
}

/** The same in words. */
export interface ReviewRisk {
  /** `sale s260310kr` */
  readonly title: string;
  readonly about: string;
  readonly at: string;
  readonly reasons: readonly Reason[];
}

/** What was found out about the changes. */
interface Evidence {
  readonly changes: readonly RecordChange[];
  readonly closed: readonly ClosedChange[];
  readonly scale: ReadonlyMap<RecordChange, readonly OutOfScale[]>;
  /** Ids of the records of the old book that new ones say once more. */
  readonly twins: ReadonlyMap<RecordChange, string>;
  readonly brought: readonly Finding[];
  readonly asOf: Day;
}

/** The risky changes, the riskiest first, then by kind and id as they come. */
export function risksOf(speech: Speech, evidence: Evidence): Risk[] {
  const risks = evidence.changes.map((change) => ({
    change,
    reasons: reasonsOf(speech, change, evidence).sort((one, other) => rankOf(one) - rankOf(other)),
  }));
  return risks
    .filter(({ reasons }) => reasons.length > 0)
    .sort((one, other) => topRank(one) - topRank(other));
}

function rankOf({ why }: Reason): number {
  return RISKS.indexOf(why);
}

function topRank({ reasons: [first] }: Risk): number {
  return first ? rankOf(first) : RISKS.length;
}

function reasonsOf(speech: Speech, change: RecordChange, evidence: Evidence): Reason[] {
  const closed = evidence.closed.filter((each) => each.change === change);
  const scale = evidence.scale.get(change) ?? [];
  const far = new Set(scale.map(({ path }) => path.join('.')));
  const prices = pricesAndRecipes(change).filter(({ path }) => !far.has(path.join('.')));
  const reasons: Reason[] = [
    ...closed.map(({ message }): Reason => ({ why: 'closed-period', text: message })),
    ...presence(change),
    ...doubled(change, evidence.twins),
    ...scale.map((each) => scaleReason(speech, each)),
    ...doubts(speech, change, { brought: evidence.brought, far }),
    ...shortages(speech, change, evidence.brought),
    ...fieldReasons(speech, change, { why: 'losses-edited', fields: changedLosses(change) }),
    ...quarterReasons(speech.now.book, change),
    ...fieldReasons(speech, change, { why: 'price-or-recipe', fields: prices }),
    ...renamed(change, evidence.changes),
  ];
  // That it is old says no more than the others do.
  return reasons.length > 0 ? reasons : oldRecord(change, evidence.asOf);
}

function doubled(change: RecordChange, twins: Evidence['twins']): Reason[] {
  const twin = twins.get(change);
  return twin === undefined ? [] : [{ why: 'doubled', text: `it says the same as ${twin}` }];
}

function presence({ became }: RecordChange): Reason[] {
  if (became === 'removed') return [{ why: 'removed', text: 'it is gone from the book' }];
  if (became !== 'unsound') return [];
  return [{ why: 'faulty', text: 'it now has errors, so it no longer counts' }];
}

function scaleReason(
  speech: Speech,
  { path, of, spec, value, before, factor }: OutOfScale,
): Reason {
  const writing = writingOf(speech);
  const key = path.filter((part) => typeof part === 'string').at(-1) ?? '';
  const name = of === '' ? key : `${key} of ${of}`;
  const [now, other] = [valueText(spec, value, writing), valueText(spec, before, writing)];
  const text = `${name} ${other} → ${now}, ${factorText(factor)} what it was`;
  return { why: 'out-of-scale', text };
}

/** What the check asks about a figure of the changed record, but for what was changed by as much. */
function doubts(speech: Speech, { id }: RecordChange, { brought, far }: Asked): Reason[] {
  const { names, prices } = speech.hidden;
  const isPlain = !names && !prices;
  return brought
    .filter(({ rule, at }) => DOUBTS.has(rule) && 'path' in at && at.path[0] === id)
    .filter(({ at }) => 'path' in at && !far.has(at.path.slice(1).join('.')))
    .map(({ rule, message }) => ({
      why: 'out-of-scale',
      text: isPlain ? message : `a figure is far from the usual (${rule})`,
    }));
}

/** What the check finds now that it did not before, and the figures of which it is said already. */
interface Asked {
  readonly brought: readonly Finding[];
  readonly far: ReadonlySet<string>;
}

const SHORT: ReadonlySet<string> = new Set([
  'consigned-overdrawn',
  'lot-overdrawn',
  'sold-more-than-finished',
  'stock-below-zero',
]);

/** Shortages that the rules find at the changed record; those elsewhere stand with the problems. */
function shortages(
  { hidden: { names, prices } }: Speech,
  { id }: RecordChange,
  brought: readonly Finding[],
): Reason[] {
  const isPlain = !names && !prices;
  return brought
    .filter(({ rule, at }) => SHORT.has(rule) && 'path' in at && at.path[0] === id)
    .map(({ rule, message }) => ({
      why: 'below-zero',
      text: isPlain ? message : `it takes more than there is (${rule})`,
    }));
}

function fieldReasons(
  speech: Speech,
  change: RecordChange,
  { why, fields }: { readonly why: RiskWhy; readonly fields: readonly FieldChange[] },
): Reason[] {
  return fields.map((field) => ({ why, text: fieldSentence(fieldWords(speech, change, field)) }));
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

const MONEY_KINDS: readonly (Kind | 'studio')[] = ['products', 'classes', 'channels', 'tariffs'];
const PRICES: ReadonlySet<string> = new Set(['amount', 'rate', 'percent']);

function pricesAndRecipes({ kind, fields, before }: RecordChange): readonly FieldChange[] {
  if (!before) return [];
  if (kind === 'recipes') return fields.filter(({ path }) => path[0] === 'versions');
  const isPriced = MONEY_KINDS.includes(kind);
  return fields.filter(
    ({ path: [first], spec }) => isPriced && (PRICES.has(spec.type) || first === 'changes'),
  );
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

/** The days by which money is put into quarters, by their keys. */
function moneyDays(entry: Entry): [key: string, day: Day][] {
  const { date } = entry as { readonly date?: Day };
  const own: [string, Day][] = date === undefined ? [] : [['date', date]];
  return [...own, ...paidDays(entry)];
}

/** A record older than this counts as an old one; in days. */
const OLD_AGE = 31;

function oldRecord({ kind, became, before, fields }: RecordChange, asOf: Day): Reason[] {
  const day = dayOfRecord(before);
  if (
    became !== 'changed' ||
    fields.length === 0 ||
    !isEvent(kind) ||
    day === undefined ||
    day >= addDays(asOf, -OLD_AGE)
  )
    return [];
  return [{ why: 'old-record', text: `a record of ${day} was edited` }];
}

function renamed(
  { became, was = '', id, kind }: RecordChange,
  changes: readonly RecordChange[],
): Reason[] {
  if (became !== 'renamed') return [];
  const names = changes
    .flatMap(({ follows }) => follows)
    .filter(
      ({ after, spec }) =>
        after === id && spec.type === 'reference' && kind !== 'studio' && spec.to.includes(kind),
    );
  const others = names.length === 1 ? '1 reference follows' : `${names.length} references follow`;
  return [{ why: 'renamed', text: `it was ${was} before; ${others}` }];
}
