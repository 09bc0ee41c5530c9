/** One firing's load: what went in, what came out, and what each line bears of the cost. */
import { once } from '../once.ts';
import type { Book, LoadLine } from '../book.ts';
import { sum } from '../number/decimal.ts';
import { NO_MONEY, add } from '../number/money.ts';
import { totalOf, type Cost } from '../reckon/cost.ts';
import { spaceOf, type FiringCost } from '../reckon/firing-cost.ts';
import { inOrderOfCauses } from '../reckon/loss-causes.ts';
import { moneyColumn, perPiece, rateColumn, tableHead, textColumn } from './head.ts';
import type { Column, Row, Table } from './table.ts';
import type { Flows } from '../reckon/flows.ts';

const COLUMNS: readonly Column[] = [
  { key: 'item', title: 'Load', type: 'id' },
  textColumn('product', 'Product'),
  { key: 'in', title: 'In', type: 'count' },
  { key: 'first', title: 'First', type: 'count' },
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
  textColumn('why', 'Why', { drop: 1 }),
  { key: 'space', title: 'Space', type: 'quantity', places: 1, drop: 2 },
  moneyColumn('energyCost', 'Energy', { drop: 3 }),
  moneyColumn('wearCost', 'Wear', { drop: 4 }),
  moneyColumn('suppliesCost', 'Supplies', { drop: 5 }),
  moneyColumn('labourCost', 'Labour', { drop: 6 }),
  moneyColumn('total', 'Share'),
  rateColumn('perPiece', 'A piece'),
];

/** The load of one firing; undefined when there is none of that id up to the day. */
export function firingLoad(book: Book, flows: Flows, id: string): Table | undefined {
  const cost = flows.ware.firings.get(id);
  if (!cost) return undefined;
  const rows = cost.firing.load.map((line, index) => lineRow(book, line, cost.shares[index]));
  const { firing } = cost;
  return {
    report: 'firings',
    title: `${firing.kind} firing ${id} in ${book.kilns.get(firing.kiln)?.name ?? firing.kiln}, ${firing.date}`,
    ...tableHead(book, flows.stock.asOf),
    columns: COLUMNS,
    rows,
    totals: totalsOf(book, cost),
    notes: notesOn(book, cost),
    behind: once(() =>
      firing.load.map(({ lot, class: course }) => [
        id,
        ...[lot, course].filter((each) => each !== undefined),
      ]),
    ),
  };
}

function lineRow(book: Book, line: LoadLine, share: Cost | undefined): Row {
  const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
  const total = share && totalOf(share);
  return {
    item: line.lot ?? line.class ?? line.outside ?? null,
    product: lot?.product ?? (line.class === undefined ? 'for others' : 'class'),
    in: line.in,
    first: line.first ?? null,
    second: line.second ?? null,
    lost: line.lost ?? null,
    why: whyInWords(line),
    space: spaceOf(book, line),
    energyCost: share ? add(share.energy ?? NO_MONEY, share.fuel ?? NO_MONEY) : null,
    wearCost: share?.wear ?? null,
    suppliesCost: share?.supplies ?? null,
    labourCost: share?.labour ?? null,
    total: total ?? null,
    perPiece: total === undefined ? null : perPiece(book, total, line.in),
  };
}

function whyInWords(line: LoadLine): string | null {
  const causes = inOrderOfCauses(line.why ?? {}).map(([cause, count]) => `${count} ${cause}`);
  const refire = line.refire === 'yes' ? ['refire'] : [];
  const words = [...refire, ...causes];
  return words.length === 0 ? null : words.join(', ');
}

function totalsOf(book: Book, cost: FiringCost): Row {
  const { load } = cost.firing;
  const count = (key: 'first' | 'second' | 'lost'): number =>
    load.reduce((all, line) => all + (line[key] ?? 0), 0);
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

function notesOn(book: Book, cost: FiringCost): string[] {
  const { firing, energy } = cost;
  const space = sum(firing.load.map((line) => spaceOf(book, line)));
  const room = book.kilns.get(firing.kiln)?.space;
  const facts = [
    firing.cone === undefined ? undefined : `cone ${firing.cone}`,
    firing.coneSeen === undefined ? undefined : `cone seen ${firing.coneSeen}`,
    firing.peak === undefined ? undefined : `peak ${firing.peak}`,
    firing.hours && `${firing.hours.toString()} hours`,
    energy && `${energy.value.toString()} ${energy.unit}${energy.estimated ? ' (estimated)' : ''}`,
    room && `space ${space.toString()} of ${room.toString()}`,
  ].filter((fact) => fact !== undefined);
  return [
    ...(facts.length === 0 ? [] : [`${facts.join(', ')}.`]),
    ...[bandsInWords(cost), firing.note].filter((note) => note !== undefined),
  ];
}

function bandsInWords({ withoutBands }: FiringCost): string | undefined {
  return (
    withoutBands &&
    `The energy is at the plain price of tariff ${withoutBands.id}, since going by its bands needs both started and hours.`
  );
}
