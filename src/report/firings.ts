/** Firings: what each one cost, and of one what each line of its load bears of that. */
import { type DaysUpTo, recordsDuring } from '../among.ts';
import type { Book, Firing, LoadLine } from '../book.ts';
import { counted, sentences } from '../in-words.ts';
import { sum } from '../number/decimal.ts';
import { NO_MONEY, add } from '../number/money.ts';
import { once } from '../once.ts';
import { totalOf, type Cost } from '../reckon/costs/cost.ts';
import { tariffOn } from '../reckon/kilns/energy.ts';
import { spaceOf, type FiringCost } from '../reckon/kilns/firing-cost.ts';
import type { Flows } from '../reckon/flows.ts';
import { inOrderOfCauses } from '../reckon/kilns/loss-causes.ts';
import { broughtByRecord } from './brought.ts';
import { cellsOf, perPiece, spanInWords, sumsOf, tableHead, withRows } from './head.ts';
import { loadVerdict } from './record-verdicts.ts';
import type { AddedUp, ColumnOf, Row, Table } from './table.ts';
import { digitsOf } from '../reckon/booked.ts';
import { chartFirings } from '../reckon/kilns/loss-chart.ts';
import { lossFacts } from '../reckon/kilns/losses.ts';
import { firingsVerdict } from './verdicts/firings.ts';
import { lostOutOfLine, outAlerts } from './verdicts/losses.ts';

const COST_COLUMNS: readonly ColumnOf<ReturnType<typeof costLine>>[] = [
  { key: 'firing', title: 'Firing', type: 'id' },
  { key: 'date', title: 'Date', type: 'date', drop: 3 },
  { key: 'kiln', title: 'Kiln', type: 'text', isName: true, drop: 4 },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'cone', title: 'Cone', type: 'text', drop: 5 },
  { key: 'pieces', title: 'Pieces', type: 'count' },
  {
    key: 'energyUsed',
    title: 'Energy',
    type: 'quantity',
    places: 1,
    unitFrom: 'energyUnit',
    drop: 7,
  },
  { key: 'energyUnit', title: 'Unit', type: 'text' },
  { key: 'energyCost', title: 'Energy cost', type: 'money' },
  { key: 'wearCost', title: 'Wear', type: 'money' },
  { key: 'suppliesCost', title: 'Supplies', type: 'money' },
  { key: 'labourCost', title: 'Labour', type: 'money' },
  { key: 'total', title: 'Total', type: 'money' },
  { key: 'perPiece', title: 'Per piece', type: 'rate', from: 'Total ÷ Pieces' },
  { key: 'outOfLine', title: 'Out of line', type: 'text', drop: 8 },
  { key: 'estimated', title: 'Estimated', type: 'flag', drop: 6 },
];

const PARTS_OF_COST = ['energyCost', 'wearCost', 'suppliesCost', 'labourCost'] as const;

/** What a firing cost, and what a line of its load bears of that. */
const FIRING_SUMS: readonly AddedUp[] = [{ total: 'total', plus: PARTS_OF_COST }];

function costLine(book: Book, cost: FiringCost, out: ReadonlyMap<string, string>) {
  const { firing, energy, energyOrFuelCost } = cost;
  return {
    ...firing,
    ...cost,
    firing: firing.id,
    energyUsed: energy?.value,
    energyUnit: energy?.unit,
    energyCost: energyOrFuelCost,
    perPiece: perPiece(book, cost.total, cost.pieces),
    outOfLine: out.get(firing.id),
    // Where the energy was not measured, or its cost is not known at all.
    estimated: (energy?.estimated ?? false) || energyOrFuelCost === undefined,
  };
}

/** Every firing of the span by date, with the totals of pieces and costs. */
export function firingsTable(book: Book, flows: Flows, span: DaysUpTo): Table {
  const firings = firingsIn(flows, span);
  const { asOf } = flows.stock;
  const charted = chartFirings(lossFacts(book, span, asOf));
  const out = lostOutOfLine(charted);
  const cells = withRows(
    COST_COLUMNS,
    firings.map((cost) => costLine(book, cost, out)),
  );
  const totals = { firing: 'total', ...sumsOf(cells) };
  return {
    report: 'firings',
    title: `Cost of firings, ${spanInWords(span)}`,
    ...tableHead(book, asOf),
    ...cells,
    sums: FIRING_SUMS,
    totals,
    verdict: firingsVerdict(firings, charted, { ...cells, totals, minorDigits: digitsOf(book) }),
    alerts: outAlerts(cells.rows),
    notes: firingNotes(firings),
    behind: once(() => firings.map((cost) => behindCost(book, cost))),
    brought: broughtByRecord(() => firings.map((cost) => [cost]), {
      keys: ['pieces', 'energyUsed', ...PARTS_OF_COST],
      idOf: ({ firing }) => firing.id,
      cellsOf: ([cost]) => (cost ? cellsOf(COST_COLUMNS, costLine(book, cost, out)) : {}),
    }),
  };
}

/** The costs of the firings in a span, by date, then id. */
export function firingsIn(flows: Flows, { from, to }: DaysUpTo): FiringCost[] {
  const inOrder = ({ firing }: FiringCost): string => `${firing.date} ${firing.id}`;
  return [...recordsDuring(flows.ware.firings, { from, to })]
    .filter(({ firing }) => firing.date <= to && (from === undefined || firing.date >= from))
    .sort((a, b) => (inOrder(a) < inOrder(b) ? -1 : 1));
}

/** The firing, its kiln for the wear, and the tariff of its day. */
function behindCost(book: Book, { firing, energyCost }: FiringCost): string[] {
  const kiln = book.kilns.get(firing.kiln);
  const tariff = kiln && energyCost !== undefined && tariffOn(book, kiln.fuel, firing.date);
  return [firing.id, ...(kiln ? [kiln.id] : []), ...(tariff ? [tariff.id] : [])];
}

function firingNotes(firings: readonly FiringCost[]): string[] {
  const unmetered = firings.filter((cost) => cost.energy?.estimated).length;
  const unknown = firings.filter((cost) => cost.energyOrFuelCost === undefined).length;
  const plain = firings.filter((cost) => cost.withoutBands).map(({ firing }) => firing.id);
  return sentences(
    unmetered > 0 &&
      `${counted(unmetered, 'firing')} without a meter: energy is power × hours × duty.`,
    unknown > 0 && `${counted(unknown, 'firing')} without known energy cost: the total lacks it.`,
    plain.length > 0 &&
      `Energy at the plain price of the tariff, since going by its bands needs both started and hours: ${plain.join(', ')}.`,
  );
}

const LOAD_COLUMNS: readonly ColumnOf<ReturnType<typeof loadLine>>[] = [
  { key: 'item', title: 'Load', type: 'id' },
  { key: 'product', title: 'Product', type: 'text' },
  { key: 'in', title: 'In', type: 'count' },
  { key: 'first', title: 'First', type: 'count' },
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
  { key: 'why', title: 'Why', type: 'text', drop: 1 },
  { key: 'space', title: 'Space', type: 'quantity', places: 1, drop: 2 },
  { key: 'energyCost', title: 'Energy', type: 'money' },
  { key: 'wearCost', title: 'Wear', type: 'money' },
  { key: 'suppliesCost', title: 'Supplies', type: 'money' },
  { key: 'labourCost', title: 'Labour', type: 'money' },
  { key: 'total', title: 'Share', type: 'money' },
  { key: 'perPiece', title: 'Per piece', type: 'rate', from: 'Share ÷ In' },
];

/** The load of one firing; undefined when there is none of that id up to the day. */
export function firingLoad(book: Book, flows: Flows, id: string): Table | undefined {
  const cost = flows.ware.firings.get(id);
  if (!cost) return undefined;
  const { firing } = cost;
  const lines = firing.load.map((line, index) =>
    loadLine(book, firing, { line, share: cost.shares[index] }),
  );
  const totals = loadTotals(book, cost);
  return {
    report: 'firings',
    title: `${firing.kind} firing ${id} in ${book.kilns.get(firing.kiln)?.name ?? firing.kiln}, ${firing.date}`,
    ...tableHead(book, flows.stock.asOf),
    ...withRows(LOAD_COLUMNS, lines),
    sums: [{ total: 'in', plus: ['first', 'second', 'lost'] }, ...FIRING_SUMS],
    totals,
    verdict: loadVerdict(book, cost, totals),
    notes: loadNotes(book, cost),
    behind: once(() =>
      firing.load.map(({ lot, class: course }) => [
        id,
        ...[lot, course].filter((each) => each !== undefined),
      ]),
    ),
    brought: broughtByRecord(() => lines.map((line) => [line]), {
      keys: ['in', 'first', 'second', 'lost', 'space', ...PARTS_OF_COST],
      idOf: () => id,
      cellsOf: ([line]) => (line ? cellsOf(LOAD_COLUMNS, line) : {}),
    }),
  };
}

/** A line of a load with what it bears. */
function loadLine(
  book: Book,
  firing: Firing,
  { line, share }: { readonly line: LoadLine; readonly share: Cost | undefined },
) {
  const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
  const total = share && totalOf(share);
  return {
    ...line,
    item: line.lot ?? line.class ?? line.outside,
    product: lot?.product ?? (line.class === undefined ? 'for others' : 'class'),
    why: whyInWords(line),
    space: spaceOf(book, firing, line),
    energyCost: share && add(share.energy ?? NO_MONEY, share.fuel ?? NO_MONEY),
    wearCost: share?.wear,
    suppliesCost: share?.supplies,
    labourCost: share?.labour,
    total,
    perPiece: total === undefined ? null : perPiece(book, total, line.in),
  };
}

function whyInWords(line: LoadLine): string | undefined {
  const causes = inOrderOfCauses(line.why ?? {}).map(([cause, count]) => `${count} ${cause}`);
  const words = sentences(line.refire === 'yes' && 'refire', ...causes);
  return words.length === 0 ? undefined : words.join(', ');
}

function loadTotals(book: Book, cost: FiringCost): Row {
  const count = (key: 'first' | 'second' | 'lost'): number =>
    cost.firing.load.reduce((all, line) => all + (line[key] ?? 0), 0);
  return {
    item: 'total',
    in: cost.pieces,
    first: count('first'),
    second: count('second'),
    lost: count('lost'),
    energyCost: add(cost.energyCost ?? NO_MONEY, cost.fuelCost),
    wearCost: cost.wearCost,
    suppliesCost: cost.suppliesCost,
    labourCost: cost.labourCost,
    total: cost.total,
    perPiece: perPiece(book, cost.total, cost.pieces),
  };
}

function loadNotes(book: Book, { firing, energy, withoutBands }: FiringCost): string[] {
  const space = sum(firing.load.map((line) => spaceOf(book, firing, line)));
  const room = book.kilns.get(firing.kiln)?.space;
  const facts = sentences(
    firing.cone !== undefined && `cone ${firing.cone}`,
    firing.coneSeen !== undefined && `cone seen ${firing.coneSeen}`,
    firing.peak !== undefined && `peak ${firing.peak}`,
    firing.hours && `${firing.hours.toString()} hours`,
    energy && `${energy.value.toString()} ${energy.unit}${energy.estimated ? ' (estimated)' : ''}`,
    room && `space ${space.toString()} of ${room.toString()}`,
  );
  return sentences(
    facts.length > 0 && `${facts.join(', ')}.`,
    withoutBands &&
      `The energy is at the plain price of tariff ${withoutBands.id}, since going by its bands needs both started and hours.`,
    firing.note,
  );
}
