/** What is said of a list before it is taken in: how many of each, the first new ones, what changed. */
import { NOUN } from '../../check/finding.ts';
import { paidOut } from '../../entry/lists/list-totals.ts';
import type { ListKind, ListMap } from '../../entry/lists/map.ts';
import { mapLine, inYaml } from '../../entry/lists/row-words.ts';
import type { ChangedListed, NewListed, ListTaking } from '../../entry/lists/taking.ts';
import type { ListTable } from '../../entry/lists/table.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { counted, sentences, setApart } from '../../in-words.ts';
import { moneyText, total, type Money } from '../../number/money.ts';
import { isList, isMap, textUnder, type Raw } from '../../read/raw.ts';
import { digitsOf } from '../../reckon/booked.ts';
import type { OpenedFiles } from '../studio/open.ts';

/** A list that was looked at, and which of its records are to be taken in. */
interface LookedList {
  readonly map: ListMap & { readonly kind: ListKind };
  readonly table: ListTable;
  readonly taking: ListTaking;
  readonly due: readonly NewListed[];
  readonly opened: OpenedFiles;
}

interface TakingWords {
  readonly summary: readonly string[];
  readonly each: readonly string[];
  /** `3 sales from orders.csv, 212.00 USD`. */
  readonly done: string;
}

/** So many of each are shown. */
const MOST_LISTED = 10;

/** The words of one look. */
export function takingWords(looked: LookedList): TakingWords {
  const { table, map, due, opened } = looked;
  const { currency } = opened.book.studio;
  const sum = inMoney(looked, total(due.map(({ amount }) => amount.money)));
  const what = `${nounOf(map.kind, due.length)} from ${table.file}`;
  return {
    summary: [
      `${table.file} by ${map.file}: ${counted(table.rows.length, 'row')}`,
      ...countLines(looked),
    ],
    each: [
      ...eachDue(looked),
      ...changedLines(looked),
      ...alikeLines(looked),
      ...lateLines(looked),
    ],
    done: map.kind === 'orders' ? what : `${what}, ${sum} ${currency}`,
  };
}

function nounOf(kind: ListKind, count: number): string {
  const noun = NOUN[kind];
  return counted(count, noun);
}

function inMoney({ opened }: LookedList, amount: Money): string {
  return setApart(moneyText(amount, digitsOf(opened.book)));
}

function countLines(looked: LookedList): readonly string[] {
  const { taking, due } = looked;
  const { sorted, there, changed, late, findings } = taking;
  const isLateDue = due.some((each) => late.includes(each));
  return sentences(
    `  new             ${newWords(looked)}`,
    `  there already   ${there}`,
    changed.length > 0 && `  changed since   ${changed.length}, left as they are in the book`,
    late.length > 0 && !isLateDue && `  held back       ${late.length}`,
    sorted.skipped > 0 && `  skipped         ${sorted.skipped} by the map`,
    sorted.payouts.length > 0 && `  payouts         ${payoutWords(looked)}`,
    sorted.sums.length > 0 && findings.length === 0 && '  totals          met',
  );
}

/** Of what is not clear neither the days nor the amounts are known. */
function newWords(looked: LookedList): string {
  const { due, map, taking, opened } = looked;
  if (due.length === 0) return 'none';
  const count = nounOf(map.kind, due.length);
  if (taking.findings.length > 0) return `${count}, not all of them clear`;
  const days = due.map(({ date }) => date).sort();
  const sum = inMoney(looked, total(due.map(({ amount }) => amount.money)));
  const money = map.kind === 'orders' ? '' : `, ${sum} ${opened.book.studio.currency}`;
  return `${count}, ${days[0] ?? ''} to ${days.at(-1) ?? ''}${money}`;
}

function payoutWords(looked: LookedList): string {
  const { taking, map, opened } = looked;
  const { sorted } = taking;
  const { money, met, unmet } = paidOut({ map, digits: digitsOf(opened.book) }, sorted);
  const all = `${sorted.payouts.length} of ${inMoney(looked, money)} in all, no income`;
  const isMet = met > 0 ? `; ${met} met by their rows` : '';
  return `${all}${isMet}${unmet.length > 0 ? `; not met: ${unmet.join(', ')}` : ''}`;
}

/** `10021  2026-05-02  2 mug, 1 bowl  104.00`. */
function eachDue(looked: LookedList): readonly string[] {
  const { due } = looked;
  if (due.length === 0) return [];
  const shown = due.slice(0, MOST_LISTED).map(({ key, date, record, amount }) => {
    const words = [key, date, ...whatOf(record), inMoney(looked, amount.money)];
    return `  ${words.join('  ')}`;
  });
  return ['', ...shown, ...more(due.length)];
}

function more(count: number): string[] {
  return count > MOST_LISTED ? [`  and ${count - MOST_LISTED} more`] : [];
}

function whatOf(record: Raw): string[] {
  const lines = isMap(record) && isList(record['lines']) ? record['lines'] : [];
  if (lines.length === 0) return [textUnder(record, 'to') || textUnder(record, 'for')];
  const words = lines.map((line) => {
    const thing = ['product', 'class', 'for', 'material']
      .map((name) => textUnder(line, name))
      .find(Boolean);
    const back = textUnder(line, 'returned') === 'yes' ? ' returned' : '';
    return `${textUnder(line, 'count') || textUnder(line, 'quantity')} ${thing ?? ''}${back}`;
  });
  return [words.slice(0, 3).join(', ') + (words.length > 3 ? ' …' : '')];
}

function changedLines({ taking: { changed } }: LookedList): readonly string[] {
  const shown = changed
    .slice(0, MOST_LISTED)
    .flatMap(({ key, id, fields }: ChangedListed) => [
      `  ${key} is ${id}:`,
      ...(fields.length === 0 ? ['    the row reads otherwise now, and says the same'] : []),
      ...fields.map(
        ({ path, before, after }) =>
          `    ${path}: ${inText(before)} in the book, ${inText(after)} in the list`,
      ),
    ]);
  return changed.length === 0
    ? []
    : [
        '',
        'Changed in the list since, and left as they are (saggar amend ID changes them):',
        ...shown,
        ...more(changed.length),
      ];
}

function inText(value: Raw | null): string {
  if (value === null) return 'nothing';
  return typeof value === 'string' ? value : JSON.stringify(value);
}

function lateLines({ taking: { late }, due, map }: LookedList): readonly string[] {
  if (late.length === 0 || due.some((each) => late.includes(each))) return [];
  const keys = late.map(({ key }) => inYaml(key));
  const column = map.unique ?? 'Day';
  return [
    '',
    'Held back, since later rows are in the book and these are not: you removed them, or they are late.',
    `  ${keys.slice(0, MOST_LISTED).join(', ')}${late.length > MOST_LISTED ? ` and ${late.length - MOST_LISTED} more` : ''}`,
    '  To take them in, add --late. To leave them out for good, add under skip in the map:',
    `    ${inYaml(column)}: [${keys.slice(0, MOST_LISTED).join(', ')}]`,
  ];
}

/** Records that are in the book from elsewhere, of the same day and amount: the same money twice? */
function alikeLines({ due, map, opened }: LookedList): readonly string[] {
  const known = new Map<string, string>();
  for (const { id, raw } of lexiconOf(opened.reading.files).records([map.kind])) {
    const from = isMap(raw) ? raw['from'] : undefined;
    if (textUnder(from ?? '', 'list') !== map.name) known.set(likeness(raw), id);
  }
  const alike = due.flatMap(({ key, record }) => {
    const id = known.get(likeness(record));
    return id === undefined ? [] : [`  ${key} looks like ${id}`];
  });
  if (alike.length === 0) return [];
  return [
    '',
    `There already, it seems, from elsewhere: the same day, and the same lines or amount. ${SKIP_HINT}`,
    ...alike.slice(0, MOST_LISTED),
    ...more(alike.length),
    `  such as: ${mapLine(map.unique ?? 'Day', '…')}`,
  ];
}

const SKIP_HINT = 'What is the same is to be skipped in the map, or it counts twice.';

function likeness(raw: Raw): string {
  const lines = isMap(raw) && isList(raw['lines']) ? raw['lines'] : [];
  const parts = lines.map((line) => [
    textUnder(line, 'product'),
    textUnder(line, 'count'),
    Number(textUnder(line, 'price')),
  ]);
  return JSON.stringify([
    textUnder(raw, 'date'),
    textUnder(raw, 'channel'),
    Number(textUnder(raw, 'amount')),
    parts,
  ]);
}
