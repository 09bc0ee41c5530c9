/** What is said first of making, kilns, tests and traces is a sentence, and is what its table says. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Book, Day } from '../../src/book.ts';
import { addDays } from '../../src/number/date.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { flow } from '../../src/reckon/flow.ts';
import { plannedWork, USUAL_ASSURANCE } from '../../src/reckon/planning/plan.ts';
import { originOf } from '../../src/reckon/tracing/start.ts';
import { claimsTable } from '../../src/report/claims/claims.ts';
import { claysTable } from '../../src/report/claims/clays.ts';
import { testsTable } from '../../src/report/claims/tests.ts';
import { kilnTable } from '../../src/report/making/kiln.ts';
import { KILN_DAYS, kilnsTable } from '../../src/report/making/kilns.ts';
import { orderTable } from '../../src/report/making/order.ts';
import { ordersTable } from '../../src/report/making/orders.ts';
import { planTable } from '../../src/report/making/plan.ts';
import { recipeTable } from '../../src/report/making/recipe.ts';
import { recipesTable } from '../../src/report/making/recipes.ts';
import type { Cell, Table } from '../../src/report/table.ts';
import { traceTable } from '../../src/report/tracing/trace.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { holds } from '../helpers/law.ts';
import { growStudio, studioPlan } from '../helpers/random-studio.ts';
import { EXAMPLE } from '../helpers/studio-commands.ts';
import { filesOf } from './support/broken.ts';
import { openFiles } from './support/open.ts';

/** Every table of making, testing and tracing that has something to say first. */
function tablesOf(book: Book, asOf: Day): (Table | undefined)[] {
  const flows = flow(book, asOf);
  const days = { from: addDays(asOf, -KILN_DAYS), to: asOf };
  const plan = plannedWork(book, flows);
  const shown = { assurance: USUAL_ASSURANCE, isMeant: () => true, meant: undefined };
  const traces = [...book.materials.keys(), ...book.pieces.keys()].slice(0, 6);
  return [
    plan && planTable(book, plan, shown),
    ordersTable(book, flows, { all: false }),
    ordersTable(book, flows, { all: true }),
    ...[...book.orders.keys()].map((id) => orderTable(book, flows, id)),
    recipesTable(book, flows),
    ...[...book.recipes.keys()].map((id) => recipeTable(book, flows, id)),
    kilnsTable(book, asOf, days),
    ...[...book.kilns.values()].map((kiln) => kilnTable(book, kiln, { asOf, days })),
    claimsTable(book, flows, undefined),
    claysTable(book, asOf),
    testsTable(book, asOf, { asked: { to: asOf } }),
    ...traces.map((id) => {
      const origin = originOf({ book, flows, id });
      return 'uses' in origin ? traceTable(book, flows, { origin, told: 'whole' }) : undefined;
    }),
  ];
}

function cellsOf({ columns, rows, totals = {} }: Table): Set<string> {
  const cells = [...rows, totals].flatMap((row) => columns.map(({ key }) => row[key] ?? null));
  return new Set(cells.map(wordOf));
}

function wordOf(cell: Cell): string {
  return typeof cell === 'object' && cell !== null ? cell.toFixed() : String(cell);
}

/** Claims are counted: their figures are numbers of rows. */
const COUNTS_ROWS = new Set(['claims']);
/** A reader is told names: `o260512hl` is no name. */
const RECORD_ID = /\b[a-z]\d{6}[a-z]{2}\b/;

/** What is wrong with what a table says first, and with what it sets off. */
function faultsOf(table: Table): string[] {
  const { report, verdict, alerts, rows } = table;
  const cells = cellsOf(table);
  const sentence = verdict?.sentence ?? 'Nothing to say.';
  const figures = COUNTS_ROWS.has(report) ? [] : (verdict?.figures ?? []);
  const wordless = rows.filter((row, at) => alerts?.of[at] !== undefined && !row[alerts.column]);
  return [
    ...(/^[A-Z0-9][^\n]+\.$/.test(sentence) ? [] : [`no sentence: ${sentence}`]),
    ...(/undefined|null|NaN|\[object| {2}|\(\)|\.\.$/.test(sentence)
      ? [`broken: ${sentence}`]
      : []),
    ...(RECORD_ID.test(sentence) ? [`an id: ${sentence}`] : []),
    ...((verdict?.figures.length ?? 0) > 3 ? ['more than three figures'] : []),
    ...figures
      .filter(({ cell }) => !cells.has(wordOf(cell)))
      .map(({ label, cell }) => `${label} ${wordOf(cell)} is nowhere in the table`),
    ...(alerts && alerts.of.length !== rows.length ? ['alerts of other rows'] : []),
    ...wordless.map((_, at) => `row ${at} is set off without a word`),
  ].map((fault) => `${report}: ${fault}`);
}

describe('what is said first of making, kilns, tests and traces', () => {
  it('holds in any studio, whatever is wrong in it', async () => {
    const property = fc.asyncProperty(studioPlan({ days: 150, breaks: 'some' }), async (plan) => {
      const { asOf } = growStudio(plan);
      const { book } = await openFiles(filesOf(plan, undefined), asOf);
      expect(tablesOf(book, asOf).flatMap((table) => (table ? faultsOf(table) : []))).toEqual([]);
    });
    await holds(property, 2);
  });

  it.each(['2025-01-01', '2026-06-30'])('holds in the example studio on %s', async (asOf) => {
    const reading = await readStudio(EXAMPLE, { memory: NO_MEMORY });
    if ('refused' in reading) throw new Error(reading.refused);
    const { book } = checkStudio(reading, asOf);
    const tables = tablesOf(book, asOf).filter((table) => table !== undefined);
    expect(tables.flatMap(faultsOf)).toEqual([]);
    const said = new Set(tables.filter(({ verdict }) => verdict).map(({ report }) => report));
    if (asOf > '2026-01-01') expect([...said].sort()).toEqual(SAID);
  });
});

const SAID = ['claims', 'clays', 'kilns', 'orders', 'plan', 'recipes', 'tests', 'trace'];
