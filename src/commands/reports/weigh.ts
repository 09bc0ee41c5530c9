/** `saggar weigh`: the sheet beside the scales, of one mix or of a line blend. */
import type { Recipe, RecipeVersion } from '../../book.ts';
import { ONE, decimal, type Decimal } from '../../number/decimal.ts';
import { dimensionOf, inBase, parseQuantity, type Quantity, type Unit } from '../../number/unit.ts';
import { slopOfVolume } from '../../number/slop.ts';
import { flow } from '../../reckon/flow.ts';
import { versionOn } from '../../reckon/stock/recipe.ts';
import { solidsOf, type MixWeight } from '../../reckon/stock/weigh-sheet.ts';
import { blendTable, weighTable, type WeighAsked } from '../../report/making/weigh.ts';
import type { Table } from '../../report/table.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import { saggarCommand, shellQuoted } from '../records/undo.ts';
import type { OpenedBook } from '../studio/open.ts';
import { isRefusal, type Asked, type Refusal } from '../world.ts';
import type { Report } from './show.ts';

type WeighOptions = Partial<OptionsOf<'weigh'>>;

/** The sheet of one mix, or with `--blend` of all mixes of a line blend. */
export const weigh: Report<OptionsOf<'weigh'>> = {
  table: (opened, asked) => {
    const { book, asOf } = opened;
    const found = recipeOn(opened, asked.argument ?? '');
    if (isRefusal(found)) return found;
    const sheet = sheetAsked(found, asked);
    if (isRefusal(sheet)) return sheet;
    const { blend, steps } = asked.options;
    if (blend !== undefined) return blendOf(opened, sheet, { blend, steps });
    if (steps !== undefined) return { refused: '--steps goes with --blend only' };
    return weighTable(book, flow(book, asOf), sheet) ?? emptyBase(found.recipe);
  },
};

interface RecipeOn {
  readonly recipe: Recipe;
  readonly version: RecipeVersion;
}

function recipeOn({ book, asOf }: OpenedBook, id: string): RecipeOn | Refusal {
  const recipe = book.recipes.get(id);
  if (!recipe) return unknownId('recipe', id, book.recipes.values());
  const version = versionOn(recipe, asOf);
  return version ? { recipe, version } : { refused: `${id} has no version by ${asOf}` };
}

function emptyBase({ id }: Recipe): Refusal {
  return { refused: `the base of ${id} is empty, so there is nothing to weigh` };
}

function sheetAsked(
  { recipe, version }: RecipeOn,
  { words, options }: Asked<WeighOptions>,
): WeighAsked | Refusal {
  const amount = words.slice(1).join(' ');
  const measured = gravityOf(recipe, options);
  if (isRefusal(measured)) return measured;
  const { gravity } = measured;
  const mix = mixWeight(recipe, amount, { gravity, isTotal: options.total === true });
  if (isRefusal(mix)) return mix;
  return {
    ...{ recipe, version, amount, gravity },
    weight: mix,
    unit: shownUnit(parseQuantity(amount)),
    recordedBy: saggarCommand({ studio: options.studio }, addWords(recipe, mix, gravity)),
  };
}

/** The specific gravity, if one was asked; slop is heavier than water and lighter than what is in it. */
function gravityOf(
  recipe: Recipe,
  { gravity: text }: WeighOptions,
): Pick<WeighAsked, 'gravity'> | Refusal {
  if (text === undefined) return { gravity: undefined };
  const solids = solidsOf(recipe);
  const gravity = /^\d{1,2}(?:\.\d{1,6})?$/.test(text) ? decimal(text) : undefined;
  if (gravity?.gt(ONE) && gravity.lt(solids)) return { gravity };
  return {
    refused: `--gravity takes a number between 1 and ${solids.toString()}, such as 1.45, and not "${text}"`,
  };
}

const HOW_MUCH = 'such as "5 kg", or "12 L" with --gravity 1.45';

function mixWeight(
  recipe: Recipe,
  amount: string,
  { gravity, isTotal }: { gravity: Decimal | undefined; isTotal: boolean },
): MixWeight | Refusal {
  if (amount === '') return { refused: `say how much of ${recipe.id}, ${HOW_MUCH}` };
  const quantity = parseQuantity(amount);
  const dimension = quantity && dimensionOf(quantity.unit);
  if (!quantity || quantity.value.isZero())
    return { refused: `"${amount}" is not an amount to weigh: write one ${HOW_MUCH}` };
  if (dimension === 'weight') return isTotal ? { totalWeight: quantity } : { baseWeight: quantity };
  if (dimension !== 'volume')
    return { refused: `"${amount}" is neither a weight nor a volume: write one ${HOW_MUCH}` };
  if (gravity === undefined)
    return { refused: `"${amount}" of slop needs its specific gravity, such as --gravity 1.45` };
  const volume = inBase(quantity.value, quantity.unit);
  const { dry } = slopOfVolume(volume, { gravity, solids: solidsOf(recipe) });
  return { totalWeight: inGrams(dry) };
}

/** To a tenth of a gram, as scales show it. */
function inGrams(weight: Decimal): Quantity {
  const text = weight.toFixed(1);
  return { value: decimal(text), unit: 'g', text: `${text} g` };
}

/** Pounds and ounces where they were asked for, else grams, which recipes are mostly weighed in. */
function shownUnit(quantity: Quantity | undefined): Unit {
  const unit = quantity?.unit ?? 'g';
  return unit === 'oz' || unit === 'lb' ? unit : 'g';
}

function addWords({ id }: Recipe, mix: MixWeight, gravity: Decimal | undefined): string {
  const isBase = 'baseWeight' in mix;
  const text = (isBase ? mix.baseWeight : 'totalWeight' in mix ? mix.totalWeight : undefined)?.text;
  const measured = gravity === undefined ? '' : ` --gravity ${gravity.toString()}`;
  const option = isBase ? 'base-weight' : 'total-weight';
  return `add mixed --recipe ${id} --${option} ${shellQuoted(text ?? '')}${measured}`;
}

const USUAL_STEPS = 5;
const MOST_STEPS = 11;

function blendOf(
  opened: OpenedBook,
  sheet: WeighAsked,
  { blend, steps: text = String(USUAL_STEPS) }: { blend: string; steps: string | undefined },
): Table | Refusal {
  const { book, asOf } = opened;
  const found = recipeOn(opened, blend);
  if (isRefusal(found)) return found;
  const steps = Number(text);
  if (!Number.isSafeInteger(steps) || steps < 2 || steps > MOST_STEPS)
    return { refused: `--steps takes a number from 2 to ${MOST_STEPS}, and not "${text}"` };
  const asked = { ...sheet, other: found.recipe, otherVersion: found.version, steps };
  const table = blendTable(book, flow(book, asOf), asked);
  return table ?? { refused: `the base of ${sheet.recipe.id} or of ${blend} is empty` };
}
