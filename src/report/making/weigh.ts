/** The sheet beside the scales: what to weigh out for a mix, one material after the other. */
import type { Book, Recipe, RecipeVersion } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { sentences } from '../../in-words.ts';
import { decimal, divide, roundTo, sum, type Decimal } from '../../number/decimal.ts';
import { NO_QUANTITY, inBaseUnits, inUnit } from '../../number/measure.ts';
import { total } from '../../number/money.ts';
import { slopOfDry, type Slop } from '../../number/slop.ts';
import { convert, type Unit } from '../../number/unit.ts';
import type { Flows } from '../../reckon/flows.ts';
import {
  USUAL_SOLIDS,
  lineBlend,
  solidsOf,
  weighSheet,
  type MixWeight,
  type LineToWeigh,
} from '../../reckon/stock/weigh-sheet.ts';
import { cautionInWords } from '../cautions.ts';
import { backed, tableHead } from '../head.ts';
import type { Column, Row, Table, Verdict } from '../table.ts';

/** What is to be weighed out. */
export interface WeighAsked {
  readonly recipe: Recipe;
  readonly version: RecipeVersion;
  /** The amount as it was typed. */
  readonly amount: string;
  readonly weight: MixWeight;
  /** The unit that weights are shown in. */
  readonly unit: Unit;
  readonly gravity: Decimal | undefined;
  /** What records the mix, as it is typed. */
  readonly recordedBy: string;
}

/** Scales for grams show tenths, those for pounds and ounces thousandths. */
function scalePlaces(unit: Unit): number {
  return unit === 'g' ? 1 : 3;
}

function sheetColumns({ unit }: WeighAsked): readonly Column[] {
  const places = scalePlaces(unit);
  return [
    { key: 'part', title: 'Part', type: 'text' },
    { key: 'material', title: 'Material', type: 'id' },
    { key: 'name', title: 'Name', type: 'text', drop: 3, isName: true },
    { key: 'weight', title: 'Weigh', type: 'quantity', unit, places },
    { key: 'running', title: 'On the scales', type: 'quantity', unit, places },
    { key: 'left', title: 'Left after', type: 'quantity', unitFrom: 'unit', drop: 1 },
    { key: 'unit', title: 'Unit', type: 'text', drop: 1 },
    { key: 'cost', title: 'Cost', type: 'money', drop: 2 },
  ];
}

/** The sheet of one mix; undefined where the version has an empty base. */
export function weighTable(book: Book, flows: Flows, asked: WeighAsked): Table | undefined {
  const lines = weighSheet(book, flows, asked);
  if (!lines) return undefined;
  const { recipe, version, amount, unit } = asked;
  const slop = slopOf(asked, lines);
  return {
    report: 'weigh',
    title: `${recipe.name}, ${amount}: version from ${version.from}`,
    ...tableHead(book, flows.stock.asOf),
    columns: sheetColumns(asked),
    partedBy: 'part',
    toTick: true,
    totals: {
      material: 'total',
      weight: inUnit(lines.at(-1)?.running ?? NO_QUANTITY, unit),
      cost: total(lines.map(({ cost }) => cost)),
    },
    verdict: weighVerdict(book, asked, { lines, slop }),
    notes: sheetNotes(book, asked, { lines, slop }),
    notesFirst: containedIn(book, lines).length > 0,
    ...backed([
      ...lines.map((line) => ({
        row: lineRow(book, flows, { line, asked }),
        behind: [recipe.id, line.material],
      })),
      ...(slop ? [{ row: waterRow(slop, asked), behind: [recipe.id] }] : []),
    ]),
  };
}

function slopOf({ recipe, gravity }: WeighAsked, lines: readonly LineToWeigh[]): Slop | undefined {
  const dry = lines.at(-1)?.running;
  if (gravity === undefined || dry === undefined) return undefined;
  return slopOfDry(inBaseUnits(dry), { gravity, solids: solidsOf(recipe) });
}

function lineRow(
  book: Book,
  { stock }: Flows,
  { line, asked }: { readonly line: LineToWeigh; readonly asked: WeighAsked },
): Row {
  const { material, part, weight, running, left, cost } = line;
  const { unit = 'g' } = stock.pools.get(material) ?? {};
  return {
    part: part === 'base' ? 'Base' : 'Additions',
    material,
    name: book.materials.get(material)?.name,
    weight: inUnit(weight, asked.unit),
    running: inUnit(running, asked.unit),
    left: left === undefined ? null : inUnit(left, unit),
    unit: left === undefined ? null : unit,
    cost,
  };
}

function waterRow(slop: Slop, { unit }: WeighAsked): Row {
  return { part: 'Water', material: 'water', weight: waterIn(slop, unit) };
}

function waterIn({ water }: Slop, unit: Unit): Decimal {
  return convert(water, 'g', unit) ?? water;
}

/** What is on the sheet. */
interface SheetParts {
  readonly lines: readonly LineToWeigh[];
  readonly slop: Slop | undefined;
}

/** What can hurt, and what there is too little of; the weight in all, with the water, in figures. */
function weighVerdict(book: Book, { unit }: WeighAsked, { lines, slop }: SheetParts): Verdict {
  const contained = containedIn(book, lines);
  const short = shortOf(lines).map(
    ({ material }) => book.materials.get(material)?.name ?? material,
  );
  const column = { type: 'quantity', unit, places: scalePlaces(unit) } as const;
  const dry = inUnit(lines.at(-1)?.running ?? NO_QUANTITY, unit);
  const said = sentences(
    contained.length > 0 && `Mind the dust: there is ${listed(contained)} in it.`,
    short.length > 0 && `There is not enough ${listed(short)} in stock.`,
  );
  const water = slop && waterIn(slop, unit);
  return {
    sentence: said.length === 0 ? IN_STOCK : said.join(' '),
    figures: [
      { label: 'Dry', column, cell: dry },
      ...(water ? [{ label: 'Water', column, cell: water }] : []),
    ],
  };
}

const IN_STOCK = 'Nothing that is stocked runs short of it.';

function shortOf(lines: readonly LineToWeigh[]): LineToWeigh[] {
  return lines.filter(({ left }) => left !== undefined && left < NO_QUANTITY);
}

function sheetNotes(
  book: Book,
  { recipe, version, gravity, recordedBy }: WeighAsked,
  { lines, slop }: SheetParts,
): string[] {
  const solids = solidsOf(recipe);
  const ofSolids = solids.eq(USUAL_SOLIDS)
    ? `${solids.toString()} g/mL, as is usual`
    : `${solids.toString()} g/mL`;
  return sentences(
    cautionInWords(containedIn(book, lines)),
    version.note !== undefined && `This version: ${version.note}`,
    slop &&
      gravity &&
      `Makes ${litres(slop)} L at a specific gravity of ${gravity.toString()}, with dry material of ${ofSolids}. Add the last of the water slowly, and weigh a litre.`,
    'Cost is at what came in last.',
    `Record it: ${recordedBy}`,
  );
}

function litres({ volume }: Slop): string {
  return divide(volume, decimal(1000)).toFixed(2);
}

/** What the materials contain, each once. */
function containedIn(book: Book, lines: readonly { readonly material: string }[]): string[] {
  const all = lines.flatMap(({ material }) => book.materials.get(material)?.contains ?? []);
  return [...new Set(all)];
}

/** What a line blend is between. */
export interface BlendAsked extends WeighAsked {
  readonly other: Recipe;
  readonly otherVersion: RecipeVersion;
  readonly steps: number;
}

/** A line blend: a column for each mix; undefined where one of the bases is empty. */
export function blendTable(book: Book, flows: Flows, asked: BlendAsked): Table | undefined {
  const { recipe, version, other, otherVersion, weight, steps, unit, amount } = asked;
  const mixes = lineBlend({ one: version, other: otherVersion }, weight, steps);
  if (!mixes) return undefined;
  const materials = [...new Set(mixes.flatMap(({ weights }) => [...weights.keys()]))];
  const inShown = (value: Decimal): Decimal => convert(value, 'g', unit) ?? value;
  const rows = materials.map((material) => ({
    material,
    ...Object.fromEntries(
      mixes.map(({ weights }, at) => [
        `mix${at + 1}`,
        inShown(weights.get(material) ?? decimal(0)),
      ]),
    ),
  }));
  return {
    report: 'weigh',
    title: `${recipe.name} to ${other.name}, ${steps} mixes of ${amount}`,
    ...tableHead(book, flows.stock.asOf),
    columns: [
      { key: 'material', title: 'Material', type: 'id' },
      ...mixes.map(({ share }, at): Column => {
        const title = `${roundTo(share.times(decimal(100)), 1).toString()}%`;
        return { key: `mix${at + 1}`, title, type: 'quantity', unit, places: scalePlaces(unit) };
      }),
    ],
    rows,
    totals: {
      material: 'total',
      ...Object.fromEntries(
        mixes.map(({ weights }, at) => [`mix${at + 1}`, inShown(sum(weights.values()))]),
      ),
    },
    notes: sentences(
      `Percent of ${other.id} (version from ${otherVersion.from}) in ${recipe.id} (version from ${version.from}).`,
      cautionInWords(containedIn(book, rows)),
      'Write the number of the mix on the back of its tile.',
    ),
  };
}
