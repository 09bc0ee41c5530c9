/** Materials: what is on hand and when to order, the history of one, and where the value of all has gone. */
import { factsDuring } from '../among.ts';
import type { Book, Day } from '../book.ts';
import { sentences } from '../in-words.ts';
import { ZERO, divide } from '../number/decimal.ts';
import { NO_QUANTITY, inUnit, sumOf } from '../number/measure.ts';
import { NO_MONEY, add, decimalOf, less, total, type Money } from '../number/money.ts';
import type { Unit } from '../number/unit.ts';
import { madeOnce, once } from '../once.ts';
import { digitsOf } from '../reckon/booked.ts';
import { USAGE_WINDOW, depletion, type Depletion } from '../reckon/stock/depletion.ts';
import type { Flows } from '../reckon/flows.ts';
import { broughtTogether, bringing, type Brought } from '../reckon/brought.ts';
import { goodsBrought, standingBrought } from '../reckon/stock/goods-brought.ts';
import type { Movement, MovementReason } from '../reckon/stock/stock.ts';
import type { Account } from '../reckon/ware/ware.ts';
import { STANDING, materialValue, type MaterialValue } from '../reckon/stock/where.ts';
import { cautionInWords } from './cautions.ts';
import { LEAVING_WORDS, STANDING_WORDS } from './goods-words.ts';
import { movedStock } from './sources/stock-moved.ts';
import { broughtByParts } from './brought.ts';
import { spanInWords, sparkLine, sumsOf, tableHead, withRows } from './head.ts';
import { materialVerdict } from './record-verdicts.ts';
import type { ColumnOf, Row, Table } from './table.ts';
import { stockAlerts, stockVerdict } from './verdicts/stock.ts';

const ON_HAND: readonly ColumnOf<Depletion & { material: string }>[] = [
  { key: 'material', title: 'Material', type: 'id' },
  { key: 'name', title: 'Name', type: 'text', drop: 5, isName: true },
  { key: 'onHand', title: 'On hand', type: 'quantity', unitFrom: 'unit' },
  { key: 'unit', title: 'Unit', type: 'text' },
  { key: 'value', title: 'Value', type: 'money', drop: 1 },
  {
    key: 'usedPerDay',
    title: 'Per day',
    type: 'quantity',
    places: 3,
    drop: 3,
    from: 'what went out in the days of usage ÷ those days',
  },
  {
    key: 'daysLeft',
    title: 'Days left',
    type: 'quantity',
    places: 1,
    drop: 2,
    from: 'On hand ÷ Per day',
  },
  { key: 'runsOut', title: 'Runs out', type: 'date', drop: 4 },
  { key: 'orderBy', title: 'Order by', type: 'date' },
  { key: 'state', title: 'State', type: 'text' },
  { key: 'isToOrder', title: 'To order', type: 'flag', dataOnly: true },
];

/** Depletion of every material, the most urgent first; usage over the last `window` days. */
export function materialsTable(book: Book, flows: Flows, window: number): Table {
  const stock = depletion(book, flows.stock, window);
  const cells = withRows(
    ON_HAND,
    stock.map((each) => ({ ...each, material: each.id })),
  );
  const totals = { material: 'total', ...sumsOf(cells) };
  return {
    report: 'materials',
    title: 'Materials on hand',
    ...tableHead(book, flows.stock.asOf),
    ...cells,
    totals,
    verdict: stockVerdict(stock, { ...cells, totals, asOf: flows.stock.asOf }),
    alerts: stockAlerts(stock),
    notes: [
      `Usage is what went out in the last ${window} days, or since a material's first record.`,
    ],
    ...movedStock(flows, stock),
  };
}

/** Why stock moved, in words. */
export const MOVED_BY: Readonly<Record<MovementReason, string>> = {
  bought: 'bought',
  reclaimed: 'reclaimed',
  mixed: 'weighed for a mix',
  'into-mix': 'mixed',
  clay: 'clay for a lot',
  glaze: 'glaze on ware',
  supplies: 'firing supplies',
  fuel: 'fuel',
  packing: 'packing of sales',
  used: 'used',
  counted: 'stocktake difference',
  opening: 'there at the start',
  settled: 'cost of a shortage settled',
};

const ROW_ABOVE = 'that of the row above plus the change of this one';

function historyColumns(unit: Unit): readonly ColumnOf<MovedStock>[] {
  return [
    { key: 'date', title: 'Date', type: 'date' },
    { key: 'what', title: 'What', type: 'text' },
    { key: 'record', title: 'Record', type: 'id' },
    { key: 'change', title: 'Change', type: 'quantity', unit },
    { key: 'onHand', title: 'On hand', type: 'quantity', unit, from: ROW_ABOVE },
    { key: 'valueChange', title: 'Value change', type: 'money', drop: 1 },
    { key: 'value', title: 'Value', type: 'money', from: ROW_ABOVE },
    {
      key: 'unitCost',
      title: `Cost per ${unit}`,
      type: 'rate',
      places: 4,
      drop: 2,
      from: 'Value ÷ On hand',
    },
  ];
}

/** Every movement of one pool in order; undefined when there is no material or recipe of that id. */
export function materialHistory(book: Book, flows: Flows, id: string): Table | undefined {
  const stock = flows.stock.pools.get(id);
  if (!stock) return undefined;
  const { since, unit } = stock;
  const moved = [...factsDuring(flows.stock.movements, { from: since })].filter(
    ({ pool }) => pool === id,
  );
  const history = historyOf(moved, { unit, digits: digitsOf(book) });
  const now = depletion(book, flows.stock, USAGE_WINDOW).find((each) => each.id === id);
  return {
    report: 'materials',
    title: `History of ${stock.material?.name ?? stock.recipe?.name ?? id} (${unit})`,
    ...tableHead(book, flows.stock.asOf),
    ...withRows(historyColumns(unit), history),
    verdict: now && materialVerdict(now, flows.stock.asOf),
    notes: sentences(courseOf(history), cautionInWords(stock.material?.contains ?? [])),
    behind: once(() => moved.map(({ by }) => [by])),
    brought: broughtByParts(moved, { valueChange: ({ by, value }) => [[by, value]] }),
  };
}

type MovedStock = ReturnType<typeof historyOf>[number];

/** Each movement, with what was left after it. */
function historyOf(
  movements: readonly Movement[],
  { unit, digits }: { readonly unit: Unit; readonly digits: number },
) {
  let quantity = NO_QUANTITY;
  let value = NO_MONEY;
  return movements.map((movement) => {
    quantity = sumOf(quantity, movement.quantity);
    value = add(value, movement.value);
    const onHand = inUnit(quantity, unit);
    const purpose = movement.for === undefined ? '' : `: ${movement.for}`;
    return {
      date: movement.day,
      what: `${MOVED_BY[movement.reason]}${purpose}`,
      record: movement.by,
      change: inUnit(movement.quantity, unit),
      onHand,
      valueChange: movement.value,
      value,
      unitCost: onHand.gt(ZERO) ? divide(decimalOf(value, digits), onHand) : null,
    };
  });
}

const COURSE_LENGTH = 60;

/** The last movements' stock on hand at a glance. */
function courseOf(moved: readonly MovedStock[]): string | undefined {
  if (moved.length < 2) return undefined;
  return `On hand: ${sparkLine(moved.slice(-COURSE_LENGTH).map(({ onHand }) => onHand.toNumber()))}`;
}

/** The day on which a period starts, and the flows up to the day before, where it isn't the book's start. */
interface PeriodStart {
  readonly from: Day;
  readonly eve: Flows;
}

/**
 * Opening value + what was counted when the book began + bought = what stands at the end + what left:
 * both sides add up to the same.
 */
export function materialValueTable(
  book: Book,
  flows: Flows,
  start: PeriodStart | undefined,
): Table {
  const end = materialValue(flows);
  const before = start && materialValue(start.eve);
  const came = cameFrom(end, before);
  const { asOf } = flows.stock;
  const brought = madeOnce(() => broughtToValue(flows, { start, hasOpened: came.length > 2 }));
  const cells: Pick<Table, 'columns' | 'rows'> = {
    columns: [
      { key: 'side', title: 'Side', type: 'text' },
      { key: 'part', title: 'Part', type: 'text' },
      { key: 'cameFrom', title: 'Came from', type: 'money' },
      { key: 'wentTo', title: 'Went to', type: 'money' },
    ],
    rows: [...came, ...wentTo(end, before)],
  };
  return {
    report: 'materials',
    title: `Where the money in materials is, ${spanInWords({ from: start?.from, to: asOf })}`,
    ...tableHead(book, asOf),
    ...cells,
    totals: { side: 'total', ...sumsOf(cells) },
    notes: [
      'Materials at landed cost; without energy, wear and labour. Both sides add up to the same.',
    ],
    behind: madeOnce(() => brought().map(bringing)),
    brought: { cameFrom: brought, wentTo: brought },
  };
}

/** What records bring to each row. */
function broughtToValue(
  flows: Flows,
  { start, hasOpened }: { start: PeriodStart | undefined; hasOpened: boolean },
): Brought[] {
  const period = { from: start?.from ?? '0000-01-01', to: flows.stock.asOf };
  const { opened, purchases, ownUse, consumed } = goodsBrought(flows, period);
  const before = start ? Object.values(standingBrought(start.eve)) : [];
  const standing = standingBrought(flows);
  return [
    broughtTogether(before, []),
    ...(hasOpened ? [broughtTogether(Object.values(opened), [])] : []),
    purchases,
    ...STANDING.map((part) => standing[part]),
    consumed.sold,
    consumed.lost,
    broughtTogether([consumed.given, ownUse], []),
    consumed.others,
    consumed.differences,
  ];
}

function cameFrom(end: MaterialValue, before: MaterialValue | undefined): Row[] {
  const openedIn = ({ opened }: MaterialValue): Money => total(Object.values(opened));
  const opened = less(openedIn(end), before ? openedIn(before) : NO_MONEY);
  const parts: [string, Money][] = [
    ['opening stock', before ? total(Object.values(before.standing)) : NO_MONEY],
    ...(opened === NO_MONEY ? [] : [['counted when the book began', opened] as [string, Money]]),
    ['bought', less(end.bought, before?.bought ?? NO_MONEY)],
  ];
  return parts.map(([part, amount]) => ({ side: 'came from', part, cameFrom: amount }));
}

function wentTo(end: MaterialValue, before: MaterialValue | undefined): Row[] {
  const left = (way: Account): Money => less(end.leaving[way], before?.leaving[way] ?? NO_MONEY);
  const ways = {
    [LEAVING_WORDS.sold]: left('sold'),
    [LEAVING_WORDS.lost]: left('lost'),
    'given away and kept': add(left('given'), left('kept')),
    [LEAVING_WORDS.others]: left('others'),
    [LEAVING_WORDS.differences]: left('differences'),
  };
  return [
    ...STANDING.map((place) => ({
      side: 'stands',
      part: STANDING_WORDS[place],
      wentTo: end.standing[place],
    })),
    ...Object.entries(ways).map(([part, amount]) => ({ side: 'left', part, wentTo: amount })),
  ];
}
