/** Problems for people and programs: with the source line on a terminal, as a table elsewhere. */
import { countOf } from '../../fold.ts';
import { counted } from '../../in-words.ts';
import type { Place, Problem, Severity } from '../../problem.ts';
import type { Column, Row, Table, TableHead } from '../../report/table.ts';
import { visible } from '../escape.ts';
import type { Paint, Paints } from '../paint.ts';
import { paints } from '../paint.ts';
import { printedLayout, type Printable } from '../printable.ts';
import type { RenderOptions } from '../render.ts';
import { render, usableWidth } from '../render.ts';
import { sourceLines } from './source.ts';
import type { TextOptions } from '../terminal/text.ts';
import { displayWidth, wrap } from '../terminal/width.ts';

/** Where a message has less room than this beside the place, it begins on the next line. */
const LEAST_ROOM = 24;
const INDENT = '  ';

const COLUMNS: readonly Column[] = [
  { key: 'file', title: 'File', type: 'text' },
  { key: 'line', title: 'Line', type: 'count' },
  { key: 'column', title: 'Column', type: 'count' },
  { key: 'rule', title: 'Rule', type: 'id' },
  { key: 'severity', title: 'Severity', type: 'text' },
  { key: 'message', title: 'Message', type: 'text' },
  { key: 'hint', title: 'Hint', type: 'text' },
  { key: 'related', title: 'Related', type: 'text' },
];

function placeText({ file, line, column }: Place): string {
  return `${file}:${String(line)}:${String(column)}`;
}

/** How many errors and warnings there are, in a sentence: `2 errors, 1 warning.` */
export function countsOf(problems: readonly Problem[]): string {
  if (problems.length === 0) return 'No problems found.';
  const of = (severity: Severity): number =>
    countOf(problems.filter((problem) => problem.severity === severity));
  const parts = (['error', 'warning'] as const).filter((word) => of(word) > 0);
  return `${parts.map((word) => counted(of(word), word)).join(', ')}.`;
}

function relatedText({ related }: Problem): string | null {
  const places = related.map(({ place, message }) => `${placeText(place)} ${message}`);
  return places.length === 0 ? null : places.join('; ');
}

function problemRow(problem: Problem): Row {
  const { place, rule, severity, message, hint } = problem;
  const { file, line, column } = place;
  return { file, line, column, rule, severity, message, hint, related: relatedText(problem) };
}

/** The problems as a table named `check`, in their order: for json, csv and markdown. */
export function problemTable(problems: readonly Problem[], checked: TableHead): Table {
  return {
    report: 'check',
    title: 'Problems',
    ...checked,
    columns: COLUMNS,
    rows: problems.map(problemRow),
    notes: [countsOf(problems)],
  };
}

interface ProblemLook {
  readonly width: number;
  readonly paints: Paints;
}

interface LineStart {
  readonly text: string;
  readonly painted: string;
}

/** A start that is never broken, then a sentence that wraps below it. */
function startedSentence(start: LineStart, text: string, width: number): string[] {
  const room = width - displayWidth(start.text) - 1;
  const rest = width - 2 * INDENT.length;
  const beside = room >= Math.min(LEAST_ROOM, displayWidth(text));
  const [first = '', ...more] = wrap(text, { width: rest, first: beside ? room : rest });
  const below = (beside ? more : [first, ...more]).map((line) => INDENT + INDENT + line);
  return [beside ? `${start.painted} ${first}` : start.painted, ...below];
}

function headLines({ place, rule, severity, message }: Problem, look: ProblemLook): string[] {
  const at = `${visible(placeText(place))} ${visible(rule)}`;
  const text = `${at} ${severity}:`;
  const painted = `${at} ${look.paints[severity](`${severity}:`)}`;
  return startedSentence({ text, painted }, visible(message), look.width);
}

function labelled(label: string, text: string, look: ProblemLook): string[] {
  if (text === '') return [];
  const start = { text: INDENT + label, painted: INDENT + look.paints.quiet(label) };
  return startedSentence(start, visible(text), look.width);
}

function relatedLines({ related }: Problem, look: ProblemLook): string[] {
  return related.flatMap(({ place, message }) => {
    const start = `${INDENT}see ${visible(placeText(place))}`;
    return startedSentence({ text: start, painted: start }, visible(message), look.width);
  });
}

function problemLines(problem: Problem, look: ProblemLook): string {
  const mark: Paint = look.paints[problem.severity];
  return [
    ...headLines(problem, look),
    ...sourceLines(problem.place, { ...look, mark }),
    ...labelled('hint:', problem.hint, look),
    ...relatedLines(problem, look),
  ].join('\n');
}

/**
 * Problems for a terminal, with a line end: `file:line:column rule severity: message`, the source
 * line with the marked columns underlined, the hint and related places; last a line that counts
 * them. Only a place that is wider than the line is not broken.
 */
export function problemText(
  problems: readonly Problem[],
  { width, colour }: TextOptions,
): Printable {
  const look = { width: usableWidth(width), paints: paints(colour) };
  const blocks = problems.map((problem) => problemLines(problem, look));
  return printedLayout(`${[...blocks, countsOf(problems)].join('\n\n')}\n`, { colour });
}

/**
 * Problems for editors and other programs, a line each: `file:line:column: severity: message [rule]`,
 * with the hint and the related places after the message; last a line that counts them.
 */
function problemLinesText(problems: readonly Problem[]): Printable {
  const lines = [...problems.map(inOneLine), countsOf(problems)];
  return printedLayout(lines.map((line) => `${line}\n`).join(''));
}

function inOneLine(problem: Problem): string {
  const { place, rule, severity, message, hint, related } = problem;
  const says = [
    message,
    ...(hint === '' ? [] : [`hint: ${hint}`]),
    ...related.map((other) => `see ${placeText(other.place)} ${other.message}`),
  ];
  return visible(`${placeText(place)}: ${severity}: ${says.join('; ')} [${rule}]`);
}

/** The problems in the format asked for; as text, laid out for a terminal alone. */
export async function renderProblems(
  problems: readonly Problem[],
  checked: TableHead,
  options: RenderOptions,
): Promise<Printable> {
  if (options.as === 'text')
    return options.terminal ? problemText(problems, options) : problemLinesText(problems);
  return render(problemTable(problems, checked), options);
}
