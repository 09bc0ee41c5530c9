/** What is risky in a change of the settings or of a definition: money, and what can hurt someone. */
import type { Book, Recipe } from '../book.ts';
import type { RecordChange } from './changes.ts';
import type { FieldChange } from './fields.ts';
import { fieldReach } from './reach.ts';
import type { Reason, RiskWhy } from './reasons.ts';
import { fieldSentence, fieldWords, type Speech } from './words.ts';

/** What follows from a setting that is not what it was. */
const SETTING_WORDS: Readonly<Record<string, string>> = {
  currency: 'every amount of the book counts in the other currency, and none is converted',
  basis: 'money counts on other days',
  'stock-value': 'stock and what ware cost are valued in another way',
  'year-starts': 'quarters and years are of other days',
};

/** The reasons to look at a change of the settings or of a definition. */
export function definitionReasons(speech: Speech, change: RecordChange): Reason[] {
  const { kind, before, after, fields } = change;
  if (kind === 'tests') return testReasons(speech, change);
  if (kind === 'studio')
    return fields.filter(isMoving(change)).map((field) => settingReason(speech, change, field));
  const sentences = (why: RiskWhy, some: readonly FieldChange[], more = ''): Reason[] =>
    some.map((field) => ({
      why,
      text: `${fieldSentence(fieldWords(speech, change, field))}${more}`,
    }));
  if (!before || !after) return [];
  const claims = fields.filter((field) => isClaim(kind, field));
  const substances = fields.filter(({ path: [key] }) => kind === 'materials' && key === 'contains');
  const priced = fields.filter((field) => isPriced(kind, field));
  const apart = new Set([...claims, ...substances, ...priced]);
  const others = fields.filter((field) => !apart.has(field) && isMoving(change)(field));
  const glazed = fields.filter(({ path: [key] }) => kind === 'products' && key === 'glazes');
  return [
    ...sentences('claim', claims, testsText(speech.now.book, change)),
    ...sentences('substance', substances),
    ...metalReasons(speech.now.book, change, glazed),
    ...sentences('price-or-recipe', priced),
    ...sentences(
      DEFINITIONS.has(kind) ? 'definition' : 'old-record',
      DEFINITIONS.has(kind) ? others : [],
    ),
  ];
}

const DEFINITIONS: ReadonlySet<RecordChange['kind']> = new Set([
  'products',
  'channels',
  'classes',
  'kilns',
  'tariffs',
  'materials',
  'recipes',
]);

function isMoving({ kind }: RecordChange): (field: FieldChange) => boolean {
  return ({ path: [key = ''] }) => fieldReach(kind, String(key)) !== 'nowhere';
}

function settingReason(speech: Speech, change: RecordChange, field: FieldChange): Reason {
  const follows = SETTING_WORDS[String(field.path[0])];
  const sentence = fieldSentence(fieldWords(speech, change, field));
  return { why: 'settings', text: follows === undefined ? sentence : `${sentence}: ${follows}` };
}

const PRICED_KINDS: ReadonlySet<RecordChange['kind']> = new Set([
  'products',
  'classes',
  'channels',
  'tariffs',
]);
const PRICES: ReadonlySet<string> = new Set(['amount', 'rate', 'percent']);

function isPriced(kind: RecordChange['kind'], { path: [first], spec }: FieldChange): boolean {
  if (kind === 'recipes') return first === 'versions';
  return PRICED_KINDS.has(kind) && (PRICES.has(spec.type) || first === 'changes');
}

function isClaim(kind: RecordChange['kind'], { path: [key] }: FieldChange): boolean {
  return (kind === 'products' && key === 'care') || (kind === 'recipes' && key === 'for-food');
}

/** Which leach tests are on record for the glazes that a claim is about. */
function testsText({ recipes, products, tests }: Book, { kind, id }: RecordChange): string {
  const glazes =
    kind === 'recipes' ? [id] : (products.get(id)?.glazes ?? []).map(({ recipe }) => recipe);
  const known = glazes.filter((glaze) => recipes.has(glaze));
  const found = [...tests.values()].filter(
    (test) => test.kind === 'leach' && test.recipe !== undefined && known.includes(test.recipe),
  );
  const on = found.map((test) => `${test.id} (${test.recipe ?? ''})`).join(', ');
  return `; leach tests on record: ${on === '' ? 'none' : on}`;
}

/** Metals in a glaze that laboratories test ware for. */
const REGULATED: ReadonlySet<string> = new Set(['lead', 'cadmium']);

function metalReasons(book: Book, { id }: RecordChange, fields: readonly FieldChange[]): Reason[] {
  if (fields.length === 0) return [];
  return (book.products.get(id)?.glazes ?? []).flatMap(({ recipe }) => {
    const metals = metalsIn(book, book.recipes.get(recipe));
    const text = `its glaze ${recipe} has ${metals.join(' and ')} in it`;
    return metals.length === 0 ? [] : [{ why: 'substance' as const, text }];
  });
}

function metalsIn(book: Book, recipe: Recipe | undefined): string[] {
  const parts = (recipe?.versions ?? []).flatMap(({ base, additions = [] }) => [
    ...base,
    ...additions,
  ]);
  const substances = parts.flatMap(({ material }) => book.materials.get(material)?.contains ?? []);
  return [...new Set(substances)].filter((substance) => REGULATED.has(substance));
}

function testReasons(speech: Speech, change: RecordChange): Reason[] {
  const results = change.fields.filter(
    ({ path: [key], before }) => (key === 'leach' || key === 'kind') && before !== undefined,
  );
  const reasons = results.map((field): Reason => {
    return { why: 'leach-result', text: fieldSentence(fieldWords(speech, change, field)) };
  });
  const { before, after } = change;
  if (!before || after || !('leach' in before)) return reasons;
  return [{ why: 'leach-result', text: 'a leach test that was on record is gone' }];
}
