/** Recipes: the version in force, what it costs, whether the bucket has enough for the ware that waits. */
import type { Book } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { counted, sentences } from '../../in-words.ts';
import { NO_QUANTITY, inUnit, oppositeOf } from '../../number/measure.ts';
import { inBase, type Unit } from '../../number/unit.ts';
import { ONE, type Decimal } from '../../number/decimal.ts';
import { once } from '../../once.ts';
import type { Flows } from '../../reckon/flows.ts';
import { recipeFigures, type RecipeFigures } from '../../reckon/stock/recipe-figures.ts';
import { BUCKET_UNIT } from '../../reckon/stock/stock.ts';
import { tableHead, withRows } from '../head.ts';
import type { ColumnOf, Table, Verdict } from '../table.ts';

const RECIPE_COLUMNS = (unit: Unit): readonly ColumnOf<ReturnType<typeof recipeRow>>[] => [
  { key: 'recipe', title: 'Recipe', type: 'id' },
  { key: 'name', title: 'Name', type: 'text', drop: 7, isName: true },
  { key: 'kind', title: 'Kind', type: 'text', drop: 6 },
  { key: 'version', title: 'Version from', type: 'date', drop: 3 },
  { key: 'cost', title: `Cost per ${unit}`, type: 'rate', drop: 2 },
  { key: 'inBucket', title: 'In the bucket', type: 'quantity', unit: BUCKET_UNIT, places: 0 },
  { key: 'waiting', title: 'Pieces waiting', type: 'count' },
  { key: 'needed', title: 'They need', type: 'quantity', unit: BUCKET_UNIT, places: 0 },
  { key: 'left', title: 'Left then', type: 'quantity', unit: BUCKET_UNIT, places: 0 },
  { key: 'metals', title: 'Metals', type: 'text', drop: 5 },
  { key: 'tested', title: 'Last test', type: 'text', drop: 4 },
];

/** Every recipe by its id. */
export function recipesTable(book: Book, flows: Flows): Table {
  const recipes = recipeFigures(book, flows);
  const unit = bulkUnit(book);
  return {
    report: 'recipes',
    title: 'Recipes',
    ...tableHead(book, flows.stock.asOf),
    ...withRows(
      RECIPE_COLUMNS(unit),
      recipes.map((each) => recipeRow(each, unit)),
    ),
    verdict: recipesVerdict(recipes),
    notes: recipeNotes(recipes),
    behind: once(() => recipes.map(behindRecipe)),
  };
}

/** The unit in which dry material is priced: pounds where the studio weighs in pounds or ounces. */
function bulkUnit({ studio: { weightUnit = 'kg' } }: Book): Unit {
  return weightUnit === 'lb' || weightUnit === 'oz' ? 'lb' : 'kg';
}

/** The recipe, what is in it, the lots that wait for it and the tests of it. */
function behindRecipe({ recipe, version, waiting, tests }: RecipeFigures): string[] {
  const lines = [...(version?.base ?? []), ...(version?.additions ?? [])];
  const materials = lines.map(({ material }) => material);
  return [
    ...new Set([recipe.id, ...materials, ...waiting.lots, ...tests.map(({ test }) => test.id)]),
  ];
}

function recipeRow(figures: RecipeFigures, unit: Unit) {
  const { recipe, version, inBucket, waiting, left } = figures;
  return {
    recipe: recipe.id,
    name: recipe.name,
    kind: recipe.kind,
    version: version?.from,
    cost: costOf(figures, unit),
    inBucket: inUnit(inBucket, BUCKET_UNIT),
    waiting: waiting.pieces,
    needed: inUnit(waiting.needed, BUCKET_UNIT),
    left: inUnit(left, BUCKET_UNIT),
    metals: figures.contains.filter((each) => each !== 'silica').join(', '),
    tested: lastTest(figures),
  };
}

/** So much of it dry; null where a material in it has no cost yet. */
function costOf({ perGram, unpriced }: RecipeFigures, unit: Unit): Decimal | null {
  return unpriced.length > 0 ? null : perGram.times(inBase(ONE, unit));
}

/** `2025-11-21, leach`, and whether that was of an earlier version. */
function lastTest({ tests, version }: RecipeFigures): string {
  const [last] = tests;
  if (!last) return 'none';
  const words = [last.test.date, last.test.kind];
  return [...words, ...(last.version === version ? [] : ['other version'])].join(', ');
}

/** Whether the buckets have enough for the ware that waits; undefined where none waits. */
function recipesVerdict(recipes: readonly RecipeFigures[]): Verdict | undefined {
  const wanted = recipes.filter(({ waiting }) => waiting.pieces > 0);
  if (wanted.length === 0) return undefined;
  const short = wanted.filter(isShort).sort((one, other) => (one.left < other.left ? -1 : 1));
  const [least] =
    short.length > 0 ? short : wanted.sort((one, other) => (one.left < other.left ? -1 : 1));
  if (!least) return undefined;
  const { recipe, waiting, left } = least;
  const pieces = counted(waiting.pieces, 'piece');
  const others = short.length > 1 ? `, nor of ${counted(short.length - 1, 'other')}` : '';
  const figures = [
    { label: `${recipe.name}, left then`, column: GRAMS, cell: inUnit(left, BUCKET_UNIT) },
  ];
  return isShort(least)
    ? {
        sentence: `Not enough ${recipe.name} for the ${pieces} that wait for it${others}.`,
        figures,
      }
    : {
        sentence: `Every bucket has enough for what waits; least is left of ${recipe.name}.`,
        figures,
      };
}

const GRAMS = { type: 'quantity', unit: BUCKET_UNIT, places: 0 } as const;

function isShort({ left, waiting }: RecipeFigures): boolean {
  return waiting.pieces > 0 && left < NO_QUANTITY;
}

function recipeNotes(recipes: readonly RecipeFigures[]): string[] {
  if (recipes.length === 0) return ['No recipes yet: define one with saggar add recipes.'];
  const short = recipes.filter(isShort);
  const unpriced = [...new Set(recipes.flatMap((each) => each.unpriced))];
  return sentences(
    ...short.map(
      ({ recipe: { id }, left }) =>
        `What to weigh out of ${id}: saggar weigh ${id} "${gramsUp(left)} g" --total`,
    ),
    'Pieces waiting: ware that is glazed next. What is still to be bisqued is not counted.',
    'Cost is at what the materials came in at last, of the dry weight.',
    unpriced.length > 0 && `No cost is known where nothing came in yet: ${listed(unpriced)}.`,
    'A test says what was tested, and how; it never makes ware safe. One recipe with all its tests: saggar recipes ID.',
  );
}

/** What is lacking, in whole grams. */
function gramsUp(left: RecipeFigures['left']): string {
  const short = inUnit(oppositeOf(left), BUCKET_UNIT);
  return Math.ceil(short.toNumber()).toFixed(0);
}
