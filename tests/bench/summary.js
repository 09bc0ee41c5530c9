/** Draws the benchmark's figures together: ratios, growth and targets, as data and as text. */
import { growth, ratio, verdict } from './arithmetic.js';
import { COMMANDS, FLOOR, LOADER, REVIEW } from './jobs.js';

/** @import { Result } from './measure.js' */
/** @import { GrownStudio } from './studios.js' */
/** @import { Growth } from './arithmetic.js' */

/**
 * @typedef {object} Line
 * @property {string} name
 * @property {number | null} years
 * @property {string | null} kind
 * @property {number} runs
 * @property {number} ms
 * @property {number | undefined} toFloor times `node -e 0`
 * @property {number | undefined} toLoader times CSafeLoader on the same files
 * @property {number} cpuMs
 * @property {number | undefined} cpuToFloor times the processor time of `node -e 0`
 * @property {number} peakMb
 */

/** @typedef {{ name: string, kind: string } & Growth} GrowthLine */

/**
 * @typedef {object} Target
 * @property {string} name
 * @property {number | undefined} value
 * @property {number} limit
 * @property {string} unit
 * @property {'met' | 'missed' | 'not measured'} state
 */

/**
 * @typedef {object} Summary
 * @property {readonly Omit<GrownStudio, 'folder'>[]} studios
 * @property {readonly Line[]} lines
 * @property {readonly GrowthLine[]} growth
 * @property {readonly Target[]} targets
 */

/**
 * @param {readonly Result[]} results
 * @param {readonly GrownStudio[]} studios
 * @returns {Summary}
 */
export function summarise(results, studios) {
  const floor = results.find(({ job }) => job.name === FLOOR);
  const lines = results.map((result) =>
    lineOf(result, { floor, loader: loaderOf(results, result) }),
  );
  const growths = growthOf(lines, studios);
  return {
    studios: studios.map(({ years, files, records, bytes }) => ({ years, files, records, bytes })),
    lines,
    growth: growths,
    targets: targetsOf(lines, growths),
  };
}

/** @type {(results: readonly Result[], result: Result) => Result | undefined} */
function loaderOf(results, { job }) {
  return results.find((other) => other.job.name === LOADER && other.job.years === job.years);
}

/** @type {(result: Result, bases: { floor: Result | undefined, loader: Result | undefined }) => Line} */
function lineOf({ job, ms, times, cpuMs, peakMb }, { floor, loader }) {
  return {
    name: job.name,
    years: job.years ?? null,
    kind: job.kind ?? null,
    runs: times.length,
    ms,
    toFloor: ratio(ms, floor?.ms),
    toLoader: ratio(ms, loader?.ms),
    cpuMs,
    cpuToFloor: ratio(cpuMs, floor?.cpuMs),
    peakMb,
  };
}

/** @typedef {{ name: string, kind: string, years: number }} Which */
/** @type {(lines: readonly Line[], which: Which) => Line | undefined} */
const find = (lines, { name, kind, years }) =>
  lines.find((line) => line.name === name && line.kind === kind && line.years === years);

/** @type {(lines: readonly Line[], studios: readonly GrownStudio[]) => GrowthLine[]} */
function growthOf(lines, studios) {
  /** @type {(years: number, which: { name: string, kind: string }) => { ms: number | undefined, bytes: number | undefined }} */
  const point = (years, which) => ({
    ms: find(lines, { ...which, years })?.ms,
    bytes: studios.find((studio) => studio.years === years)?.bytes,
  });
  return COMMANDS.flatMap(({ name, kinds }) =>
    kinds.map((kind) => ({
      name,
      kind,
      ...growth(point(10, { name, kind }), point(100, { name, kind })),
    })),
  );
}

/** @type {(name: string, value: number | undefined, bound: { limit: number, unit: string, below?: boolean }) => Target} */
const target = (name, value, bound) => ({
  name,
  value,
  limit: bound.limit,
  unit: bound.unit,
  state: verdict(value, bound),
});

/** @type {(lines: readonly Line[], growths: readonly GrowthLine[]) => Target[]} */
function targetsOf(lines, growths) {
  const warm = ['materials', 'day', 'add --dry-run', 'add'].map((name) =>
    target(
      `warm ${name}, 10 years, to node -e 0`,
      find(lines, { name, kind: 'warm', years: 10 })?.toFloor,
      { limit: 2, unit: '×' },
    ),
  );
  const { years } = REVIEW;
  const review = ratio(
    find(lines, { name: REVIEW.name, kind: 'warm', years })?.ms,
    find(lines, { name: 'check', kind: 'warm', years })?.ms,
  );
  const cold = find(lines, { name: 'check', kind: 'cold', years: 10 });
  const largest = lines.filter(({ years, kind }) => years === 100 && kind !== null);
  const peaks = largest.map(({ peakMb }) => peakMb);
  return [
    ...warm,
    target('cold check, 10 years, to CSafeLoader', cold?.toLoader, { limit: 0.5, unit: '×' }),
    target('warm review of 20 files, 10 years, to warm check', review, { limit: 1.5, unit: '×' }),
    ...growths
      .filter(({ kind }) => kind !== 'touched')
      .map(({ name, kind, times }) =>
        target(`${kind} ${name}, from 10 to 100 years`, times, { limit: 11, unit: '×' }),
      ),
    target('peak memory, 100 years', peaks.length > 0 ? Math.max(...peaks) : undefined, {
      limit: 1024,
      unit: 'MiB',
      below: true,
    }),
  ];
}

/** @type {(value: number | undefined, places: number) => string} */
const figure = (value, places) => (value === undefined ? '-' : value.toFixed(places));

/**
 * Lines of cells as text: the first column to the left, figures to the right.
 * @param {readonly (readonly string[])[]} rows
 * @returns {string}
 */
function columns(rows) {
  const widths = (rows[0] ?? []).map((_, at) =>
    Math.max(...rows.map((row) => row[at]?.length ?? 0)),
  );
  return rows
    .map((row) =>
      row
        .map((cell, at) =>
          at === 0 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0),
        )
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/**
 * The page that the benchmark prints.
 * @param {Summary} summary
 * @returns {string}
 */
export function page({ studios, lines, growth: growths, targets }) {
  const studioRows = studios.map(({ years, files, records, bytes }) =>
    [years, files, records].map(String).concat(figure(bytes / 1e6, 1)),
  );
  const lineRows = lines.map((line) => [
    [line.kind, line.name].filter((word) => word !== null).join(' '),
    line.years === null ? '' : String(line.years),
    String(line.runs),
    figure(line.ms, line.ms < 100 ? 1 : 0),
    figure(line.toFloor, 2),
    figure(line.toLoader, 2),
    figure(line.cpuMs, 0),
    figure(line.cpuToFloor, 2),
    figure(line.peakMb, 0),
  ]);
  const growthRows = growths.map(({ name, kind, times, perMegabyte }) => [
    `${kind} ${name}`,
    figure(times, 2),
    figure(perMegabyte, 2),
  ]);
  const targetRows = targets.map(({ name, value, limit, unit, state }) => [
    name,
    figure(value, 2),
    `${limit} ${unit}`,
    state,
  ]);
  return [
    columns([['years', 'files', 'records', 'MB'], ...studioRows]),
    columns([
      [
        'median of runs',
        'years',
        'runs',
        'ms',
        '× node',
        '× CSafe',
        'cpu ms',
        '× node',
        'peak MiB',
      ],
      ...lineRows,
    ]),
    columns([['growth, 10 to 100 years', 'times', 'per MB'], ...growthRows]),
    columns([['target', 'measured', 'at most', ''], ...targetRows]),
  ].join('\n\n');
}
