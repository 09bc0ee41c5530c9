/** Kilns: how far their parts are worn, when each is due, and what has been charged for it. */
import type { DaysUpTo } from '../../among.ts';
import type { Book, Day } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { andMore, counted, sentences } from '../../in-words.ts';
import { once } from '../../once.ts';
import { booked } from '../../reckon/booked.ts';
import {
  kilnLog,
  type FiringValue,
  type KilnChart,
  type KilnLog,
} from '../../reckon/kilns/kiln-log.ts';
import { partsInKilns, type PartInKiln } from '../../reckon/kilns/kiln-parts.ts';
import { broughtByParts } from '../brought.ts';
import { spanInWords, sumsOf, tableHead, withRows } from '../head.ts';
import type { AddedUp, Alert, ColumnOf, Table, Verdict } from '../table.ts';

const PART_COLUMNS: readonly ColumnOf<ReturnType<typeof partRow>>[] = [
  { key: 'kiln', title: 'Kiln', type: 'id' },
  { key: 'part', title: 'Part', type: 'text', isName: true },
  { key: 'fitted', title: 'Fitted', type: 'date', drop: 2 },
  { key: 'firings', title: 'Firings since', type: 'count' },
  { key: 'lasts', title: 'Lasts', type: 'quantity', places: 0 },
  { key: 'due', title: 'Due', type: 'date' },
  { key: 'state', title: 'State', type: 'text', drop: 1 },
  { key: 'cost', title: 'A new one', type: 'money' },
  { key: 'charged', title: 'Charged', type: 'money' },
  { key: 'toCharge', title: 'To charge', type: 'money', from: 'A new one less Charged' },
];

const PART_SUMS: readonly AddedUp[] = [{ total: 'cost', plus: ['charged', 'toCharge'] }];

/** So many days are looked at: what is older than two years says little of how a kiln fires now. */
export const KILN_DAYS = 730;

/** Every part that is in a kiln, kiln by kiln; what firings of the days show is said below. */
export function kilnsTable(book: Book, asOf: Day, days: DaysUpTo): Table {
  const parts = partsInKilns(book, asOf);
  const cells = withRows(
    PART_COLUMNS,
    parts.map((each) => partRow(book, each)),
  );
  const drifts = [...book.kilns.values()].flatMap((kiln) => driftsIn(kilnLog(book, kiln, days)));
  return {
    report: 'kilns',
    title: 'Parts of kilns',
    ...tableHead(book, asOf),
    ...cells,
    partedBy: 'kiln',
    sums: PART_SUMS,
    totals: { part: 'total', ...sumsOf(cells), firings: null },
    verdict: partsVerdict(parts, drifts.length > 0),
    alerts: { column: 'state', of: parts.map(({ state }) => ALERTS[state]) },
    notes: kilnNotes(book, { parts, days, drifts }),
    behind: once(() => parts.map(behindPart)),
    brought: broughtByParts(parts, {
      firings: ({ since }) => since.map(({ id }) => [id, 1] as const),
      charged: ({ charging, wear }) => charging.map(({ id }) => [id, wear] as const),
      cost: ({ kiln, part }) => [[kiln.id, booked(book, part.cost)]],
    }),
  };
}

/** The kiln, and the firings since the part was fitted. */
function behindPart({ kiln, since }: PartInKiln): string[] {
  return [kiln.id, ...since.map(({ id }) => id)];
}

function partRow(book: Book, { kiln, part, ...each }: PartInKiln) {
  const { firings, dueOn, state, charged, toCharge } = each;
  return {
    kiln: kiln.id,
    part: part.part,
    fitted: part.fitted,
    firings,
    lasts: part.firings,
    due: dueOn,
    state,
    cost: booked(book, part.cost),
    charged,
    toCharge,
  };
}

const ALERTS: Readonly<Record<PartInKiln['state'], Alert | undefined>> = {
  due: 'now',
  soon: 'soon',
  ok: undefined,
};

/** The part that is due first, and whether the kilns fire as usual; undefined where no part is on record. */
function partsVerdict(parts: readonly PartInKiln[], isDrifting: boolean): Verdict | undefined {
  const [first, ...more] = [...parts].sort((one, other) => one.left.cmp(other.left));
  if (!first) return undefined;
  const due = more.filter(({ state }) => state === 'due').length;
  const others = first.state === 'due' ? andMore(due, 'part') : '';
  const drift = isDrifting ? ' The latest firings are not as usual.' : '';
  return {
    sentence: `${dueText(first)}${others}.${drift}`,
    figures: [
      { label: 'Firings since', column: { type: 'count' }, cell: first.firings },
      { label: 'Lasts', column: { type: 'quantity', places: 0 }, cell: first.part.firings },
    ],
  };
}

/** `Due now: elements of Big kiln`, `Due next: elements of Big kiln, about 2026-08-03`. */
function dueText({ part, kiln, state, dueOn, left }: PartInKiln): string {
  const what = `${part.part} of ${kiln.name}`;
  if (state === 'due') return `Due now: ${what}`;
  if (dueOn !== undefined) return `Due next: ${what}, about ${dueOn}`;
  return `No part is due; least is left of ${what} (${left.toFixed(0)} firings)`;
}

interface KilnGrounds {
  readonly parts: readonly PartInKiln[];
  readonly days: DaysUpTo;
  /** What the latest firings show, in words. */
  readonly drifts: readonly string[];
}

function kilnNotes(book: Book, { parts, days, drifts }: KilnGrounds): string[] {
  const kilns = [...book.kilns.values()];
  const without = kilns.filter(({ id }) => parts.every(({ kiln }) => kiln.id !== id));
  return sentences(
    parts.length > 0 &&
      'Due: at the pace of the last 90 days. A new one: what it costs by the record of its kiln.',
    without.length > 0 && `No parts that wear on record: ${listed(without.map(({ id }) => id))}.`,
    ...drifts,
    drifts.length === 0 &&
      `Energy and hours of the latest firings are within what is usual, where there are 10 of a kind (${spanInWords(days)}).`,
    drifts.length > 0 && DRIFT_CAUTION,
    kilns.length > 0 && 'One kiln with its firings: saggar kilns ID.',
  );
}

/** What a drift may come from (common practice), and who sees to it. */
export const DRIFT_CAUTION =
  'Ageing elements, a drifting thermocouple or another way of loading may do that. Work on a kiln is for somebody competent, with the power off.';

/** What the latest firing of each kind shows. */
function driftsIn({ kiln, charts }: KilnLog): string[] {
  return charts.flatMap(({ kind, of, values, chart, unit }) => {
    const last = values.at(-1);
    if (!chart || last?.found === undefined) return [];
    const mean = `${chart.centre.toFixed(1)} ${unit}`;
    return [`${kiln.id}, ${of} of ${kind} firings: ${foundText(last, values, mean)}.`];
  });
}

/** `f260618kg is above its limit`, `the last 9 firings are above the mean of 64.2 kWh`. */
function foundText(last: FiringValue, values: KilnChart['values'], mean: string): string {
  const { found, firing } = last;
  if (found === 'above' || found === 'below') return `${firing.id} is ${found} its limit`;
  const fits = values.findLastIndex((each) => each.found !== found);
  const side = found === 'run-above' ? 'above' : 'below';
  return `the last ${counted(values.length - 1 - fits + RUN_BEFORE, 'firing')} are ${side} the mean of ${mean}`;
}

/** A run is told from its eighth on. */
const RUN_BEFORE = 7;
