/** What a reviewer should look at first: the changes that are most likely to be wrong, and why. */
import type { Day } from '../book.ts';
import { DOUBTS } from '../check/rules.ts';
import type { Finding } from '../problem.ts';
import { digitsOf } from '../reckon/booked.ts';
import type { RecordChange } from './changes.ts';
import type { ClosedChange } from './closed/closed.ts';
import { definitionReasons } from './definition-risks.ts';
import { eventReasons, losesTheSame, oldRecord } from './event-risks.ts';
import type { PeriodCause } from './closed/moved-causes.ts';
import { periodsWords } from './closed/moved-periods.ts';
import { RISKS, type Reason } from './reasons.ts';
import { factorText, type OutOfScale } from './scale.ts';
import { valueText } from './value.ts';
import { writingOf, type Speech } from './words.ts';

/** A change with all that speaks against it, the strongest reason first. */
export interface Risk {
  readonly change: RecordChange;
  readonly reasons: readonly Reason[];
}

/** What was found out about the changes. */
interface Evidence {
  readonly changes: readonly RecordChange[];
  /** Closed and finished quarters that move, each with the change that moves it. */
  readonly causes: readonly PeriodCause[];
  readonly closed: readonly ClosedChange[];
  readonly scale: ReadonlyMap<RecordChange, readonly OutOfScale[]>;
  /** Ids of the records of the old book that new ones say once more. */
  readonly twins: ReadonlyMap<RecordChange, string>;
  readonly brought: readonly Finding[];
  readonly asOf: Day;
}

/** The risky changes, the riskiest first, then by kind and id as they come. */
export function risksOf(speech: Speech, evidence: Evidence): Risk[] {
  const books = { old: speech.old.book, now: speech.now.book };
  const isAsLost = losesTheSame(books, evidence.changes);
  const risks = evidence.changes.map((change) => ({
    change,
    reasons: reasonsOf(speech, change, { ...evidence, isAsLost }).sort(
      (one, other) => rankOf(one) - rankOf(other),
    ),
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

function reasonsOf(
  speech: Speech,
  change: RecordChange,
  evidence: Evidence & { readonly isAsLost: boolean },
): Reason[] {
  const { brought, twins, asOf } = evidence;
  const closed = evidence.closed.filter((each) => each.change === change);
  const scale = evidence.scale.get(change) ?? [];
  const far = scale.map((each) => scaleReason(speech, each));
  const own = [
    ...causeReasons(speech, change, evidence.causes),
    ...closed.map(({ message }): Reason => ({ why: 'closed-period', text: message })),
    ...presence(change),
    ...doubled(change, twins),
    ...far,
    ...doubts(speech, change, { brought, far: new Set(scale.map(({ path }) => path.join('.'))) }),
    ...shortages(speech, change, brought),
    ...withoutSaid(definitionReasons(speech, change), far),
    ...withoutSaid(eventReasons(speech, change, evidence), far),
  ];
  // That it is old says no more than the others do.
  return own.length > 0 ? own : oldRecord(change, asOf);
}

/** What is said to be out of scale isn't said to be another as well. */
function withoutSaid(reasons: readonly Reason[], said: readonly Reason[]): Reason[] {
  return reasons.filter(({ text }) => !said.some((each) => each.text.startsWith(text)));
}

/** The quarters that the change moves and that are over; the closed ones are among the problems. */
function causeReasons(speech: Speech, change: RecordChange, causes: Evidence['causes']): Reason[] {
  const writing = { minorDigits: digitsOf(speech.old.book), isHidden: speech.hidden.prices };
  return causes
    .filter((cause) => cause.change === change && !cause.isClosed)
    .map(({ moved }) => ({ why: 'quarter-moved', text: periodsWords(moved, writing) }));
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
function doubts(speech: Speech, { id }: RecordChange, { brought, far }: DoubtEvidence): Reason[] {
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
interface DoubtEvidence {
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
