/** Losses by product: a row for each, with the share lost in each of its stages and what comes through them all. */
import type { Book } from '../book.ts';
import { camelCase } from '../camel-case.ts';
import { grouped, keyed } from '../grouping.ts';
import { capitalised, sentences, setApart } from '../in-words.ts';
import type { Decimal } from '../number/decimal.ts';
import { once } from '../once.ts';
import type { DaysUpTo } from '../among.ts';
import type { Flows } from '../reckon/flows.ts';
import {
  LOSS_STAGES,
  isFirstFiring,
  lossFacts,
  lossRows,
  lossTotal,
  overallYield,
  type LossCount,
  type LossFact,
  type LossRow,
  type LossStage,
} from '../reckon/kilns/losses.ts';
import { compareTexts } from '../text-order.ts';
import { broughtByParts } from './brought.ts';
import { spanInWords, tableHead } from './head.ts';
import type { AddedUp, Column, Row, Table, Verdict } from './table.ts';
import { shareText } from './verdicts/parts.ts';

/** How the bounds of a rate of losses come about. */
export const INTERVAL = 'a bound of the 95 % score interval of the rate, by what went in';

/** What is lost of all that went through first firings; the makings and refires have their own columns. */
const FIRED: readonly Column[] = [
  { key: 'in', title: 'In', type: 'count' },
  { key: 'first', title: 'First', type: 'count', drop: 8 },
  { key: 'second', title: 'Second', type: 'count' },
  { key: 'lost', title: 'Lost', type: 'count' },
  { key: 'lossRate', title: 'Loss rate', type: 'fraction', drop: 5, from: 'Lost ÷ In' },
  { key: 'low', title: 'Low', type: 'fraction', drop: 6, from: INTERVAL },
  { key: 'high', title: 'High', type: 'fraction', drop: 6, from: INTERVAL },
  { key: 'secondRate', title: 'Seconds', type: 'fraction', drop: 7, from: 'Second ÷ In' },
  {
    key: 'yield',
    title: 'Yield',
    type: 'fraction',
    from: 'what came through each stage ÷ what went in, one stage times the next',
  },
];

/** The same on a narrow line, with the shares of the seconds and the lost in their brackets. */
const FIRED_NARROWLY: readonly Column[] = [
  { key: 'in', title: 'In', type: 'count' },
  { key: 'first', title: 'First', type: 'count', drop: 8 },
  { key: 'secondTold', title: 'Second', type: 'text' },
  { key: 'lostTold', title: 'Lost', type: 'text' },
  { key: 'yield', title: 'Yield', type: 'fraction' },
];

const TOLD: readonly AddedUp[] = [{ total: 'in', plus: ['first', 'secondTold', 'lostTold'] }];

/** What went in came out as one of these. */
export const OUTCOMES: readonly AddedUp[] = [{ total: 'in', plus: ['first', 'second', 'lost'] }];

/** Of the pieces of each product, and of class and customers' ware, those with the lowest yield first. */
export function productLossesTable(book: Book, flows: Flows, span: DaysUpTo): Table {
  const facts = lossFacts(book, span, flows.stock.asOf);
  const lines = [...grouped(facts, ({ who }) => who)].map(productLine).sort(leastFirst);
  const all = lossRows(facts, 'firing');
  const stages = LOSS_STAGES.filter((stage) => all.some((row) => row.stage === stage));
  const group = { key: 'group', title: 'Product', type: 'text' } as const;
  const ofStages = stages.flatMap(stageColumns);
  return {
    report: 'losses',
    title: `Losses by product, ${spanInWords(span)}`,
    ...tableHead(book, flows.stock.asOf),
    columns: [group, ...ofStages, ...FIRED],
    sums: OUTCOMES,
    narrow: {
      columns: [{ ...group, isName: true }, ...ofStages, ...FIRED_NARROWLY],
      sums: TOLD,
    },
    rows: lines.map(({ row }) => row),
    verdict: yieldVerdict(book, lines),
    totals: { ...figureCells(lossTotal(facts, 'product'), all), group: 'all firings' },
    notes: notesOn(stages),
    behind: once(() => lines.map(({ behind }) => behind)),
    brought: broughtByParts(lines, lossParts(['in', 'first', 'second', 'lost'])),
  };
}

/** By column what each record counts of a row. */
type LossParts<K extends string> = Record<K, (row: Pick<LossRow, 'by'>) => [string, number][]>;

/** What each record counts, of each of these. */
export function lossParts<K extends keyof LossCount>(keys: readonly K[]): LossParts<K> {
  return keyed(keys, (key) => ({ by }: Pick<LossRow, 'by'>) => {
    return [...by].map(([id, count]) => [id, count[key]]);
  });
}

/** What comes through least, where it is one alone. */
function yieldVerdict(book: Book, lines: readonly ProductLine[]): Verdict | undefined {
  const [least, next] = lines;
  if (!least?.comesThrough || !next?.comesThrough || next.comesThrough.eq(least.comesThrough))
    return undefined;
  const name = book.products.get(least.name)?.name ?? least.name;
  const share = shareText(least.comesThrough);
  return {
    sentence: `${name} has the lowest yield: ${share} of those begun come through.`,
    figures: [],
  };
}

function notesOn(stages: readonly LossStage[]): string[] {
  const isApart = stages.some((stage) => !isFirstFiring(stage));
  return sentences(
    'Under each stage: how much of what went in was lost. Yield: how much comes through making and all first firings.',
    'Low and high (on a narrow line in brackets after Lost) bound the loss rate with 95 % confidence: a few pieces tell little.',
    isApart &&
      'In, second and lost are of first firings. Making and refires are listed separately, not in the totals.',
  );
}

/** Of a stage people see how much was lost; programs have the counts too. */
function stageColumns(stage: LossStage): Column[] {
  const title = capitalised(stage);
  const counts = (['in', 'first', 'second', 'lost'] as const).map((of): Column => {
    return { key: stageKey(stage, of), title: `${title}, ${of}`, type: 'count', dataOnly: true };
  });
  const drop = stage.endsWith(' refire') ? { drop: 4 } : {};
  const from = `${title}: lost ÷ in`;
  return [...counts, { key: stageKey(stage, 'lossRate'), title, type: 'fraction', ...drop, from }];
}

const STAGE_FIGURES = ['in', 'first', 'second', 'lost', 'lossRate'] as const;

/** `glazeRefireIn`. */
function stageKey(stage: LossStage, of: (typeof STAGE_FIGURES)[number]): string {
  return camelCase(`${stage.replace(' ', '-')}-${of.slice(0, 1).toLowerCase()}${of.slice(1)}`);
}

/** A row, the records that it comes from, and what it is ordered by. */
interface ProductLine {
  readonly row: Row;
  readonly behind: readonly string[];
  /** What each record counts of the first firings. */
  readonly by: LossRow['by'];
  readonly name: string;
  /** Undefined of what is none of the studio's own products. */
  readonly comesThrough: Decimal | undefined;
}

function productLine([name, facts]: readonly [string, readonly LossFact[]]): ProductLine {
  const stages = lossRows(facts, 'firing');
  const isProduct = facts.some(({ product }) => product !== undefined);
  const comesThrough = isProduct ? overallYield(stages) : undefined;
  const cells = figureCells(lossTotal(facts, 'product'), stages);
  const row = { ...cells, group: name, yield: comesThrough ?? null };
  // A firing is of one kind, so no two of these stages have one in common.
  const fired = stages.filter(({ stage }) => isFirstFiring(stage));
  const by = new Map(fired.flatMap((stage) => [...stage.by]));
  const behind = [...new Set(stages.flatMap((stage) => [...stage.by.keys()]))];
  return { row, behind, by, name, comesThrough };
}

function leastFirst(one: ProductLine, other: ProductLine): number {
  const [a, b] = [one.comesThrough, other.comesThrough];
  const unknown = Number(a === undefined) - Number(b === undefined);
  return unknown || ((a && b && a.cmp(b)) ?? 0) || compareTexts(one.name, other.name);
}

/** First firings together, and each stage by itself. */
function figureCells(together: LossRow, stages: readonly LossRow[]): Row {
  const { in: of, first, second, lost, lossRate, low, high, secondRate } = together;
  const rates = { lossRate, low, high, secondRate };
  const cells = stages.flatMap((row) =>
    STAGE_FIGURES.map((key) => [stageKey(row.stage, key), row[key] ?? null] as const),
  );
  const known = Object.entries(rates).map(([key, rate]) => [key, rate ?? null] as const);
  const told = { secondTold: secondTold(together), lostTold: lostTold(together) };
  return { ...Object.fromEntries([...cells, ...known]), in: of, first, second, lost, ...told };
}

/** `4 (5.6%)`. */
function secondTold({ second, secondRate }: LossRow): string | null {
  if (second === 0 || !secondRate) return null;
  return `${setApart(String(second))} (${shareText(secondRate)})`;
}

/** `7 (9.7%, 4.8% to 18.7%)`. */
function lostTold({ lost, lossRate, low, high }: LossRow): string | null {
  const bounds = low && high ? `, ${shareText(low)} to ${shareText(high)}` : '';
  return lossRate ? `${setApart(String(lost))} (${shareText(lossRate)}${bounds})` : null;
}
