/** One recipe: its versions, what changed between them, and all that was tried on it. */
import { recordsNaming } from '../../among.ts';
import type { Book, Mixed, Test } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { ended, sentences } from '../../in-words.ts';
import { decimal, roundTo, type Decimal } from '../../number/decimal.ts';
import { NO_QUANTITY, inUnit, sumOf, type Measure } from '../../number/measure.ts';
import type { Flows } from '../../reckon/flows.ts';
import {
  revisedVersions,
  type MaterialChange,
  type RevisedVersion,
} from '../../reckon/stock/recipe-changes.ts';
import { recipeFigures, type RecipeFigures } from '../../reckon/stock/recipe-figures.ts';
import type { RecipeTest } from '../../reckon/stock/recipe-tests.ts';
import { versionOn, weighOut } from '../../reckon/stock/recipe.ts';
import { BUCKET_UNIT } from '../../reckon/stock/stock.ts';
import { cautionInWords } from '../cautions.ts';
import { backed, tableHead, type BackedRow } from '../head.ts';
import type { Column, Table } from '../table.ts';

const TRIED_COLUMNS: readonly Column[] = [
  { key: 'part', title: 'Part', type: 'text' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'record', title: 'Record', type: 'id', drop: 2 },
  { key: 'kind', title: 'What', type: 'text', isName: true },
  { key: 'change', title: 'Change', type: 'text' },
  { key: 'result', title: 'Result', type: 'text' },
  { key: 'mixed', title: 'Mixed', type: 'quantity', unit: BUCKET_UNIT, places: 0, drop: 1 },
];

/** One recipe; undefined when there is none of that id. */
export function recipeTable(book: Book, flows: Flows, id: string): Table | undefined {
  const figures = recipeFigures(book, flows).find(({ recipe }) => recipe.id === id);
  if (!figures) return undefined;
  const { recipe, tests, contains, version: now } = figures;
  const mixed = mixedBy(book, flows, figures);
  const rows = [
    ...revisedVersions(recipe).map((each) => versionRow(each, { figures, mixed })),
    ...tests.map((each) => testRow(each, figures)),
  ];
  return {
    report: 'recipes',
    title: `${recipe.name}, ${recipe.kind}${recipe.cone === undefined ? '' : `, cone ${recipe.cone}`}`,
    ...tableHead(book, flows.stock.asOf),
    columns: TRIED_COLUMNS,
    partedBy: 'part',
    ...backed(rows),
    verdict: { sentence: recipeSentence(figures), figures: [] },
    notes: sentences(
      recipe.note,
      tests.length > 0 && 'A test says what was tested, and how; it never makes ware safe.',
      cautionInWords(contains),
      now !== undefined && `A new version: saggar revise ${id} --help`,
    ),
  };
}

/** Which version is in force, and which test of it is on record, or that none is. */
function recipeSentence({ version, tests }: RecipeFigures): string {
  const [last] = tests;
  const now =
    version === undefined ? 'No version is in force yet' : `In force since ${version.from}`;
  if (!last) return `${now}; no test of it is on record.`;
  const of = last.version === version ? '' : ', of another version';
  return `${now}; the last test on record is of ${last.test.date} (${last.test.kind}${of}).`;
}

/** Version → the dry weight that was mixed by it up to the day, and the mixes. */
function mixedBy(book: Book, { stock: { asOf } }: Flows, { recipe }: RecipeFigures): MixedBy {
  const mixes = [...recordsNaming(book.mixed, new Set([recipe.id]))].filter(
    (mixed) => mixed.recipe === recipe.id && mixed.date <= asOf,
  );
  return grouped(mixes, ({ date }) => versionOn(recipe, date));
}

type MixedBy = ReadonlyMap<RevisedVersion['version'] | undefined, readonly Mixed[]>;

function versionRow(
  { version, before, changes, isScaled }: RevisedVersion,
  { figures, mixed }: { readonly figures: RecipeFigures; readonly mixed: MixedBy },
): BackedRow {
  const mixes = mixed.get(version) ?? [];
  const weight = mixes.reduce<Measure>(
    (all, each) => sumOf(all, weighOut(each, version)?.total ?? NO_QUANTITY),
    NO_QUANTITY,
  );
  const kind =
    version === figures.version ? 'in force' : isAhead(version, figures) ? 'to come' : 'earlier';
  const row = {
    part: 'Versions',
    date: version.from,
    kind,
    change: changesText(changes, { isFirst: before === undefined, isScaled }),
    result: version.note ?? null,
    mixed: inUnit(weight, BUCKET_UNIT),
  };
  return { row, behind: [figures.recipe.id, ...mixes.map(({ id }) => id)] };
}

function isAhead({ from }: RevisedVersion['version'], { version }: RecipeFigures): boolean {
  return version === undefined || from > version.from;
}

/** `silica 23 → 27, nepheline 33 → 30, rutile 2% → 2.5%`; of the first version all that is in it. */
function changesText(
  changes: readonly MaterialChange[],
  { isFirst, isScaled }: { readonly isFirst: boolean; readonly isScaled: boolean },
): string {
  if (changes.length === 0) return 'nothing changed';
  const words = changes.map((change) =>
    isFirst ? amountText(change.material, change) : changeText(change),
  );
  return words.join(', ') + (isScaled ? ' (base as parts of 100)' : '');
}

function changeText(change: MaterialChange): string {
  const { material, before, after, part } = change;
  if (after === undefined) return `without ${material} (was ${partText(before, part)})`;
  if (before === undefined) return `with ${amountText(material, change)}`;
  return `${material} ${partText(before, part)} → ${partText(after, part)}`;
}

function amountText(material: string, { after, part }: MaterialChange): string {
  return `${material} ${partText(after, part)}`;
}

function partText(amount: Decimal | undefined, part: MaterialChange['part']): string {
  if (amount === undefined) return '';
  if (part === 'base') return roundTo(amount, 2).toString();
  return `${roundTo(amount.times(decimal(100)), 2).toString()}%`;
}

function testRow({ test, version }: RecipeTest, { version: now }: RecipeFigures): BackedRow {
  const { id, date, kind, mix, lot, firing } = test;
  const of =
    version === undefined || version === now ? kind : `${kind}, version from ${version.from}`;
  const row = {
    part: 'Tried',
    date,
    record: id,
    kind: of,
    change: test.change ?? null,
    result: resultText(test),
  };
  return { row, behind: [id, mix, lot, firing].filter((each) => each !== undefined) };
}

/** What the laboratory found, then the potter's own words. */
function resultText({ leach, result }: Test): string {
  const found = leach && [
    leach.ware,
    leach.lead === undefined ? undefined : `lead ${leach.lead}`,
    leach.cadmium === undefined ? undefined : `cadmium ${leach.cadmium}`,
    leach.method,
  ];
  const words = (found ?? []).filter((each) => each !== undefined).join(', ');
  return sentences(words !== '' && ended(words), result).join(' ');
}
