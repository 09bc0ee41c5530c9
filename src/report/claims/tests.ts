/** Tests: what was tried on what, with what came of it; the newest first. */
import type { Book, Test } from '../../book.ts';
import { counted, sentences } from '../../in-words.ts';
import { clayTested, recipesIn, versionTested } from '../../reckon/claims/leach-tests.ts';
import { tableHead, withRows } from '../head.ts';
import type { Alert, ColumnOf, Picture, Table, Verdict } from '../table.ts';

const TEST_COLUMNS: readonly ColumnOf<ReturnType<typeof testRow>>[] = [
  { key: 'test', title: 'Test', type: 'id' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'of', title: 'Of', type: 'text', isName: true },
  { key: 'version', title: 'Version from', type: 'date', drop: 5 },
  { key: 'change', title: 'Changed', type: 'text', drop: 9 },
  { key: 'clay', title: 'Clay', type: 'id', drop: 3 },
  { key: 'cone', title: 'Cone', type: 'text', drop: 6 },
  { key: 'firing', title: 'Firing', type: 'id', drop: 2 },
  { key: 'class', title: 'Class', type: 'id', drop: 4 },
  { key: 'thickness', title: 'Thickness', type: 'text', drop: 1 },
  { key: 'verdict', title: 'Verdict', type: 'text' },
  { key: 'result', title: 'Result', type: 'text', drop: 8 },
  { key: 'photo', title: 'Photo', type: 'text', drop: 7 },
];

/** On a page the photos stand in front, and what a tile was made with in one column. */
const PAGE_COLUMNS: readonly ColumnOf<ReturnType<typeof pageRow>>[] = [
  { key: 'test', title: 'Test', type: 'id' },
  { key: 'photo', title: 'Photo', type: 'text' },
  { key: 'date', title: 'Date', type: 'date' },
  { key: 'kind', title: 'Kind', type: 'text' },
  { key: 'of', title: 'Of', type: 'text' },
  { key: 'change', title: 'Changed', type: 'text' },
  { key: 'with', title: 'With', type: 'text' },
  { key: 'verdict', title: 'Verdict', type: 'text' },
  { key: 'result', title: 'Result', type: 'text' },
];

/** Which tests are shown. */
export interface TestsAsked {
  readonly recipe?: string | undefined;
  readonly class?: string | undefined;
  readonly kind?: string | undefined;
  readonly verdict?: string | undefined;
  readonly from?: string | undefined;
  readonly to: string;
}

/** The tests that are asked for, the newest first. */
export function testsAsked(book: Book, asked: TestsAsked): readonly Test[] {
  const { recipe, from = '', to } = asked;
  const isAsked = (test: Test): boolean =>
    from <= test.date &&
    test.date <= to &&
    (['class', 'kind', 'verdict'] as const).every(
      (key) => asked[key] === undefined || asked[key] === test[key],
    ) &&
    (recipe === undefined || recipesIn(book, test).includes(recipe));
  return [...book.tests.values()].filter(isAsked).sort((a, b) => (a.date < b.date ? 1 : -1));
}

/** What a page shows for the photo of a test: a picture, or why there is none. */
export type PhotoShown = Picture | string;

/** The tests as a table; photos by the ids of tests, where a page has them. */
export function testsTable(
  book: Book,
  asOf: string,
  { asked, photos }: { asked: TestsAsked; photos?: ReadonlyMap<string, PhotoShown> },
): Table {
  const tests = testsAsked(book, asked);
  const shown = tests.map(({ id }) => photos?.get(id));
  const rows = tests.map((test, at) => testRow(book, test, shown[at]));
  const good = tests.filter(({ verdict, tried }) => verdict === 'good' && tried !== undefined);
  return {
    report: 'tests',
    title: titleOf(book, asked),
    ...tableHead(book, asOf),
    currency: '',
    ...(photos ? withRows(PAGE_COLUMNS, rows.map(pageRow)) : withRows(TEST_COLUMNS, rows)),
    ...(photos && { pictures: { column: 'photo', of: shown.map(pictureOf) } }),
    verdict: testsVerdict(rows),
    alerts: { column: 'verdict', of: tests.map(({ verdict }) => ALERTS[verdict ?? 'good']) },
    notes: sentences(
      tests.length === 0 && 'No test is on record of that: record one with saggar add tests.',
      tests.length > 0 && `${counted(tests.length, 'test')}, the newest first.`,
      good[0] !== undefined &&
        `A new version of the recipe from a good tile: saggar revise --tile ${good[0].id}`,
      'A tile says nothing of what comes out of a glaze: only a leach test does.',
    ),
    behind: () => tests.map(behindTest),
  };
}

const ALERTS: Readonly<Record<NonNullable<Test['verdict']>, Alert | undefined>> = {
  no: 'now',
  again: 'soon',
  good: undefined,
};

/** The newest test, and how many were no good; undefined where there is none. */
function testsVerdict(rows: readonly ReturnType<typeof testRow>[]): Verdict | undefined {
  const [newest] = rows;
  if (!newest) return undefined;
  const { date, kind, verdict } = newest;
  const no = rows.filter((row) => row.verdict === 'no').length;
  const how = verdict === undefined ? 'no verdict yet' : `the verdict ${verdict}`;
  const bad = no === 0 ? '' : `; ${no} of ${counted(rows.length, 'test')} came to no`;
  return { sentence: `The newest test (${kind}, ${date}) has ${how}${bad}.`, figures: [] };
}

function pictureOf(shown: PhotoShown | undefined): Picture | undefined {
  return typeof shown === 'string' ? undefined : shown;
}

function behindTest({ id, recipe, mix, lot, firing }: Test): string[] {
  return [id, recipe, mix, lot, firing].filter((each) => each !== undefined);
}

function titleOf(book: Book, { recipe, class: of, verdict }: TestsAsked): string {
  const name = recipe === undefined ? undefined : (book.recipes.get(recipe)?.name ?? recipe);
  const course = of === undefined ? undefined : (book.classes.get(of)?.name ?? of);
  return [
    name === undefined ? 'Tests' : `Tests of ${name}`,
    ...(course === undefined ? [] : [`by ${course}`]),
    ...(verdict === undefined ? [] : [`with the verdict ${verdict}`]),
  ].join(' ');
}

function testRow(book: Book, test: Test, photo: PhotoShown | undefined) {
  const { id, date, kind, recipe, lot, mix, firing, tried, change } = test;
  const of = recipe === undefined ? undefined : book.recipes.get(recipe);
  return {
    test: id,
    date,
    kind,
    of: recipe ?? lot ?? mix ?? test.clay,
    version: of && versionTested(book, test, of)?.from,
    change: [...(tried ?? []), ...(change === undefined ? [] : [change])].join('; '),
    clay: clayTested(book, test),
    cone: test.cone ?? book.firings.get(firing ?? '')?.cone,
    firing,
    class: test.class,
    thickness: test.thickness,
    verdict: test.verdict,
    result: test.result,
    photo: typeof photo === 'string' ? photo : test.photo,
  };
}

function pageRow(test: ReturnType<typeof testRow>) {
  const { version, clay, cone, thickness, firing, class: of, ...row } = test;
  const said = [version && `version of ${version}`, clay, cone && `cone ${cone}`];
  return {
    ...row,
    with: [...said, thickness, firing, of]
      .filter((each) => each !== undefined && each !== '')
      .join(', '),
  };
}
