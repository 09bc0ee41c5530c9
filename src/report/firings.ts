/** Firings: what each one cost, and what a piece in it cost. */
import { counted } from '../in-words.ts';
import { recordsDuring } from '../among.ts';
import { once } from '../once.ts';
import type { Book } from '../book.ts';
import { NO_MONEY, total } from '../number/money.ts';
import { tariffOn } from '../reckon/energy.ts';
import type { FiringCost } from '../reckon/firing-cost.ts';
import type { Flows } from '../reckon/flow.ts';
import type { Span } from '../reckon/losses.ts';
import { moneyColumn, perPiece, rateColumn, spanInWords, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';

const COLUMNS: readonly Column[] = [
  { key: 'firing', title: 'Firing', type: 'id' },
  { key: 'date', title: 'Date', type: 'date' },
  textColumn('kiln', 'Kiln', { drop: 4 }),
  textColumn('kind', 'Kind'),
  textColumn('cone', 'Cone', { drop: 1 }),
  { key: 'pieces', title: 'Pieces', type: 'count' },
  { key: 'energyUsed', title: 'Energy', type: 'quantity', places: 1, drop: 3 },
  textColumn('energyUnit', 'Unit', { drop: 3 }),
  moneyColumn('energyCost', 'Energy cost'),
  moneyColumn('wearCost', 'Wear'),
  moneyColumn('suppliesCost', 'Supplies', { drop: 2 }),
  moneyColumn('labourCost', 'Labour', { drop: 5 }),
  moneyColumn('total', 'Total'),
  rateColumn('perPiece', 'A piece'),
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 6 },
];

/** Every firing of the span by date, with the totals of pieces and costs. */
export function firingsTable(book: Book, flows: Flows, span: Span): Table {
  const firings = firingsIn(flows, span);
  const rows = firings.map((cost) => firingRow(book, cost));
  return {
    report: 'firings',
    title: `Cost of firings, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: COLUMNS,
    rows,
    totals: totalsOf(firings),
    notes: notesOn(firings),
    behind: once(() => firings.map((cost) => behindCost(book, cost))),
  };
}

/** The costs of the firings in a span, by date, then id. */
export function firingsIn(flows: Flows, { from, to }: Span): FiringCost[] {
  return [...recordsDuring(flows.ware.firings, { from, to })]
    .filter(({ firing }) => firing.date <= to && (from === undefined || firing.date >= from))
    .sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1));
}

/** The firing, its kiln for the wear, and the tariff of its day. */
function behindCost(book: Book, { firing, energyCost }: FiringCost): string[] {
  const kiln = book.kilns.get(firing.kiln);
  const tariff = kiln && energyCost !== undefined && tariffOn(book, kiln.fuel, firing.date);
  return [firing.id, ...(kiln ? [kiln.id] : []), ...(tariff ? [tariff.id] : [])];
}

function keyOf({ firing }: FiringCost): string {
  return `${firing.date} ${firing.id}`;
}

/** One firing as a row. */
export function firingRow(book: Book, cost: FiringCost): Row {
  const { firing, energy } = cost;
  return {
    firing: firing.id,
    date: firing.date,
    kiln: firing.kiln,
    kind: firing.kind,
    cone: firing.cone ?? null,
    pieces: cost.pieces,
    energyUsed: energy?.value ?? null,
    energyUnit: energy?.unit ?? null,
    energyCost: cost.energyOrFuelCost ?? null,
    wearCost: cost.wearCost,
    suppliesCost: cost.suppliesCost,
    labourCost: cost.labourCost,
    total: cost.total,
    perPiece: perPiece(book, cost.total, cost.pieces),
    estimated: isEstimated(cost),
  };
}

/** Estimated where the energy was not measured, or its cost is not known at all. */
function isEstimated(cost: FiringCost): boolean {
  return (cost.energy?.estimated ?? false) || cost.energyOrFuelCost === undefined;
}

function totalsOf(firings: readonly FiringCost[]): Row {
  return {
    firing: 'total',
    pieces: firings.reduce((pieces, cost) => pieces + cost.pieces, 0),
    energyCost: total(firings.map((cost) => cost.energyOrFuelCost ?? NO_MONEY)),
    wearCost: total(firings.map((cost) => cost.wearCost)),
    suppliesCost: total(firings.map((cost) => cost.suppliesCost)),
    labourCost: total(firings.map((cost) => cost.labourCost)),
    total: total(firings.map((cost) => cost.total)),
  };
}

function notesOn(firings: readonly FiringCost[]): string[] {
  const unmetered = firings.filter((cost) => cost.energy?.estimated).length;
  const unknown = firings.filter((cost) => cost.energyOrFuelCost === undefined).length;
  return [
    ...(unmetered === 0
      ? []
      : [`${counted(unmetered, 'firing')} without a meter: energy is power × hours × duty.`]),
    ...(unknown === 0
      ? []
      : [`${counted(unknown, 'firing')} without known energy cost: the total lacks it.`]),
    ...bandsInWords(firings),
  ];
}

/** Which firings bear the plain price of a tariff with bands. */
function bandsInWords(firings: readonly FiringCost[]): string[] {
  const ids = firings.filter((cost) => cost.withoutBands).map(({ firing }) => firing.id);
  if (ids.length === 0) return [];
  return [
    `Energy at the plain price of the tariff, since going by its bands needs both started and hours: ${ids.join(', ')}.`,
  ];
}
