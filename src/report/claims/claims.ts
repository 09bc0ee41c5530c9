/** Claims: what each care word of a product rests on, and how many pots were made since it was tested. */
import type { Book, Day, Product, Test } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { sentences } from '../../in-words.ts';
import { daysBetween } from '../../number/date.ts';
import type { Flows } from '../../reckon/flows.ts';
import { claimsOf, claimsOn, type Claim } from '../../reckon/claims/claims.ts';
import { limitsOf } from '../../reckon/claims/limits.ts';
import { versionOn } from '../../reckon/stock/recipe.ts';
import { tableHead, withRows } from '../head.ts';
import type { ColumnOf, Table } from '../table.ts';
import { outcomeInWords } from './claim-words.ts';
import { alertOfClaim, claimsVerdict } from './claims-verdict.ts';

const CLAIM_COLUMNS: readonly ColumnOf<ReturnType<typeof claimRow>>[] = [
  { key: 'product', title: 'Product', type: 'id' },
  { key: 'claim', title: 'Claim', type: 'text' },
  { key: 'glaze', title: 'Glaze', type: 'id' },
  { key: 'version', title: 'Version from', type: 'date', drop: 2 },
  { key: 'outcome', title: 'On record', type: 'text' },
  { key: 'failed', title: 'Failed', type: 'flag', drop: 4 },
  { key: 'test', title: 'Test', type: 'id' },
  { key: 'tested', title: 'Tested', type: 'date', drop: 5 },
  { key: 'days', title: 'Days ago', type: 'count', drop: 3 },
  { key: 'made', title: 'Made since', type: 'count' },
  { key: 'ware', title: 'Ware', type: 'text', dataOnly: true },
  { key: 'lead', title: 'Lead', type: 'text', drop: 7 },
  { key: 'leadLimit', title: 'Lead limit', type: 'text', dataOnly: true },
  { key: 'cadmium', title: 'Cadmium', type: 'text', drop: 6 },
  { key: 'cadmiumLimit', title: 'Cadmium limit', type: 'text', dataOnly: true },
  { key: 'metals', title: 'Contains', type: 'text', drop: 1 },
];

/** The claims of all products, or of one. */
export function claimsTable(book: Book, flows: Flows, product: Product | undefined): Table {
  const { asOf } = flows.stock;
  const claims = product ? claimsOf(book, product, asOf) : claimsOn(book, asOf);
  return {
    report: 'claims',
    title: product ? `What the claims of ${product.name} rest on` : 'What claims rest on',
    ...tableHead(book, asOf),
    ...withRows(
      CLAIM_COLUMNS,
      claims.map((claim) => claimRow(book, claim, asOf)),
    ),
    verdict: claimsVerdict(claims),
    alerts: { column: 'outcome', of: claims.map(alertOfClaim) },
    notes: claimNotes(book, claims),
    behind: () => claims.map(behindClaim),
  };
}

function behindClaim({ product, recipe, evidence: { test } }: Claim): string[] {
  return [product.id, recipe?.id, test?.id, test?.lot].filter((id) => id !== undefined);
}

function claimRow(book: Book, { product, care, recipe, evidence }: Claim, day: Day) {
  const { test, isFailed } = evidence;
  return {
    product: product.id,
    claim: care,
    glaze: recipe?.id,
    version: recipe && versionOn(recipe, day)?.from,
    outcome: outcomeInWords(evidence),
    failed: isFailed,
    test: test?.id,
    tested: test?.date,
    days: test && daysBetween(test.date, day),
    made: madeSince(book, product, { from: test?.date ?? '', to: day }),
    ware: product.ware,
    ...metalCells(book, product, test),
    metals: recipe && listed(containedIn(book, recipe, day)),
  };
}

function metalCells({ studio }: Book, { ware }: Product, test: Test | undefined) {
  const limits = limitsOf(studio)?.limits.filter((each) => each.ware === ware) ?? [];
  const limitOf = (wanted: 'lead' | 'cadmium'): string | undefined =>
    limits.find(({ metal }) => metal === wanted)?.most;
  const { lead, cadmium, specimens = [{ lead, cadmium }] } = test?.leach ?? {};
  const found = (metal: 'lead' | 'cadmium'): string | undefined => {
    const texts = specimens.flatMap((each) => each[metal] ?? []);
    return texts.length === 0 ? undefined : texts.join(', ');
  };
  return {
    lead: found('lead'),
    leadLimit: limitOf('lead'),
    cadmium: found('cadmium'),
    cadmiumLimit: limitOf('cadmium'),
  };
}

/** Pieces of a product that were made after a day; what was made before it may be of what was tested. */
function madeSince(
  { pieces }: Book,
  { id }: Product,
  { from, to }: { from: Day; to: Day },
): number {
  const lots = [...pieces.values()].filter(({ product, date }) => product === id && from < date);
  return lots.reduce((all, { made, date }) => (date <= to ? all + made : all), 0);
}

/** What the materials of the version in force contain, beside silica. */
function containedIn(book: Book, recipe: NonNullable<Claim['recipe']>, day: Day): string[] {
  const { base = [], additions = [] } = versionOn(recipe, day) ?? {};
  const all = [...base, ...additions].flatMap(
    ({ material }) => book.materials.get(material)?.contains ?? [],
  );
  return [...new Set(all)].filter((each) => each !== 'silica').sort();
}

function claimNotes({ studio }: Book, claims: readonly Claim[]): string[] {
  const limits = limitsOf(studio);
  const failed = claims.filter(({ evidence }) => evidence.isFailed);
  const tests = new Set(failed.map(({ evidence }) => evidence.test?.id ?? ''));
  const isBare = claims.some(({ care, product }) => care === 'food' && product.ware === undefined);
  return sentences(
    failed.length > 0 &&
      `What has the glaze that failed, and who has it: ${[...tests].map((id) => `saggar trace ${id}`).join('; ')}.`,
    limits
      ? `Limits: ${limits.title}${limits.year === undefined ? '' : ` (${limits.year})`}. ${[limits.amendments, limits.source].filter((each) => each !== undefined).join(' ')}`.trimEnd()
      : 'Held against no limits: name a sheet with leach-limits in studio.yaml, such as us-fda.',
    limits !== undefined &&
      isBare &&
      'Where a product says no ware (cup, flatware …), no limit can be told.',
    'Every glaze that was ever on a product counts, outside too: lips touch the rim.',
    'A test says what came out of the ware that was tested. A recipe without lead is not a test: ware can take it up from a kiln, a bucket or a brush. Nothing here says that ware is safe; local rules and a laboratory decide.',
  );
}
