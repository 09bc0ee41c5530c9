/** What a change does to a closed period: records of finished business that are not as they were. */
import type { Book, Day, Entry, Firing } from '../../book.ts';
import { outcomeOf } from '../../reckon/kilns/out-of-kiln.ts';
import type { RecordChange } from '../changes.ts';
import { dayOfRecord, isEvent } from '../days.ts';
import type { FieldChange } from '../fields.ts';
import { type TypedFields, isFields } from '../value.ts';
import { recordsDuring } from '../../among.ts';
import { flow } from '../../reckon/flow.ts';
import { incomeFacts } from '../../reckon/sales/income.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';
import { placeOfTax } from '../../reckon/tax/taxed.ts';

/** The rule that speaks of it; a book alone can't break it. */
export const CLOSED_PERIOD_CHANGED = {
  name: 'closed-period-changed',
  severity: 'error',
  about:
    'A record of a closed period came, went or was changed, or the period was opened again (in `review`).',
} as const;

/** A change that touches the closed period, and in what way. */
export interface ClosedChange {
  readonly change: RecordChange;
  readonly message: string;
  readonly hint: string;
}

const BECAME: Readonly<Record<RecordChange['became'], string>> = {
  added: 'was added',
  changed: 'was changed',
  removed: 'was removed',
  moved: 'was moved',
  renamed: 'was changed',
  unsound: 'now has errors, so it no longer counts',
  sound: 'had errors, and counts now',
};

/** What to do about a record of the closed period that is not as it was. */
export const CLOSED_HINT =
  'take it back and enter a correction with a later date; figures that are filed have to be corrected where they were filed';

/**
 * The changes that touch what the old book has closed: whatever is dated up to `closed-through`, by its
 * old date or its new one, and a `closed-through` that was taken back. What happens later to an older
 * record is none: a sale paid since, a piece given away, a kiln unloaded. Nor is another id or file.
 */
export function closedChanges(old: Book, changes: readonly RecordChange[]): ClosedChange[] {
  const closed = old.studio.closedThrough;
  if (closed === undefined) return [];
  return changes.flatMap((change) => {
    const opened = reopened(change, closed);
    if (opened.length > 0) return opened;
    if (!touches(change, closed)) return [];
    const day = earlier(dayOfRecord(change.before), dayOfRecord(change.after));
    const part = change.kind === 'recipes' ? 'it has a version' : 'it has a change';
    const dated = day === undefined ? part : `it is dated ${day},`;
    const message = `${dated} in the period closed through ${closed}, and ${BECAME[change.became]}`;
    return [{ change, message, hint: CLOSED_HINT }];
  });
}

/** A `closed-through` that was taken back from a day, or away. */
export function reopened(change: RecordChange, closed: Day | undefined): ClosedChange[] {
  if (closed === undefined || change.kind !== 'studio') return [];
  const field = change.fields.find(({ path }) => path[0] === 'closed-through');
  if (!field || (typeof field.after === 'string' && field.after >= closed)) return [];
  const now = typeof field.after === 'string' ? `only through ${field.after}` : 'no more';
  const message = `the period closed through ${closed} is closed ${now}`;
  return [
    {
      change,
      message,
      hint: 'leave closed-through as it is, unless the filing is to be done again',
    },
  ];
}

function touches(change: RecordChange, closed: Day): boolean {
  const { kind, before, after, fields } = change;
  if (fields.some((field) => isOldVersion(change, field, closed))) return true;
  const isDated = isEvent(kind) || kind === 'tariffs';
  const isOld = [dayOfRecord(before), dayOfRecord(after)].some(
    (day) => day !== undefined && day <= closed,
  );
  if (!isDated || !isOld) return false;
  if (!before || !after) return true;
  return fields.some((field) => !isLaterBusiness(change, field, closed));
}

function isOldVersion(
  { before, after }: RecordChange,
  { path, ...values }: FieldChange,
  closed: Day,
): boolean {
  const [list] = path;
  if (list !== 'versions' && list !== 'changes') return false;
  const isGone = path.length === 2 && values.after === undefined;
  const items = (isGone ? before : after) as (Entry & TypedFields) | undefined;
  const item = happenings(items?.[list])[Number(path[1])];
  const parts = [values.before, values.after].flatMap((part) => [part, ...happenings(part)]);
  const from = [item?.['from'], ...parts.map((part) => (isFields(part) ? part['from'] : part))];
  return from.some((day) => typeof day === 'string' && day <= closed && /^\d{4}-/.test(day));
}

const HAPPENINGS: ReadonlySet<string> = new Set(['lost', 'gone', 'refunded']);

function isLaterBusiness(change: RecordChange, field: FieldChange, closed: Day): boolean {
  const [key = ''] = field.path;
  if (key === 'paid') return field.before === 'no' && isLater(field.after, closed);
  if (key === 'missing') return isPaidSince(field, closed);
  if (HAPPENINGS.has(String(key))) return isLaterHappening(change, field, closed);
  if (change.kind !== 'firings') return false;
  if (isUnloadedLater(change, closed) && OF_UNLOADING.has(String(field.path[2] ?? key)))
    return true;
  if (field.before !== undefined) return false;
  return (change.before as Firing).load.every((line) => outcomeOf(line) === undefined);
}

const OF_UNLOADING: ReadonlySet<string> = new Set([
  'unloaded',
  'first',
  'second',
  'lost',
  'why',
  'lost-to',
]);

/** What came out of a kiln counts from the day on which it was unloaded, before and after the change. */
function isUnloadedLater({ before, after }: RecordChange, closed: Day): boolean {
  return [before, after].every((firing) => isLater((firing as Firing).unloaded, closed));
}

/** What is owed for missing pieces is not paid while nothing is said. */
function isPaidSince({ path, before = 'no', after }: FieldChange, closed: Day): boolean {
  return path.at(-1) === 'paid' && before === 'no' && isLater(after, closed);
}

function isLaterHappening({ after }: RecordChange, field: FieldChange, closed: Day): boolean {
  const [key = '', index] = field.path;
  if (index === undefined)
    return [field.before, field.after].every((list) =>
      happenings(list).every(({ date }) => isLater(date, closed)),
    );
  const item = happenings((after as (Entry & TypedFields) | undefined)?.[String(key)])[
    Number(index)
  ];
  const days =
    isFields(field.before) || isFields(field.after)
      ? [field.before, field.after].filter(isFields).map(({ date }) => date)
      : [item?.['date'], ...(field.path.at(-1) === 'date' ? [field.before] : [])];
  return days.every((day) => isLater(day, closed));
}

function happenings(list: unknown): readonly TypedFields[] {
  return (Array.isArray(list) ? list : []).filter(isFields);
}

function isLater(day: unknown, closed: Day): boolean {
  return typeof day === 'string' && day !== 'no' && day > closed;
}

function earlier(one: Day | undefined, other: Day | undefined): Day | undefined {
  if (one === undefined || other === undefined) return one ?? other;
  return one < other ? one : other;
}

/** Whether the two books come to anything else up to and with the day. */
export function movesFigures(before: Book, after: Book, through: Day): boolean {
  return figuresThrough(before, through) !== figuresThrough(after, through);
}

/** What moved in stock, what ware cost, and what sales came to and where they were taxed. */
function figuresThrough(book: Book, through: Day): string {
  const flows = flow(book, through);
  const period = { from: '0000-01-01', to: through };
  const sales = [...recordsDuring(book.sales, { to: through })].filter(
    ({ date }) => date <= through,
  );
  const taxed = sales.map((sale) => [saleMoney(book, sale).tax, placeOfTax(book, sale)]);
  const facts = [[...flows.stock.movements], [...flows.ware.facts]];
  const all = [...facts, incomeFacts(book, flows, period), taxed];
  return JSON.stringify(all, (_, value: unknown) =>
    typeof value === 'bigint' ? value.toString() : value,
  );
}
