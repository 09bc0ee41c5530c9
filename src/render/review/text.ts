/** A review for a terminal: the verdict first, nothing wider than the terminal. */
import { figureWords, type FigureWords } from '../../review/figures.ts';
import type { Review, ReviewProblem } from '../../review/review.ts';
import type { ReviewChange, ReviewRisk } from '../../review/told-changes.ts';
import { fieldSentence } from '../../review/words.ts';
import { visible } from '../escape.ts';
import { GAP } from '../terminal/fit.ts';
import { abreast } from '../terminal/grid.ts';
import { displayWidth, wrap } from '../terminal/width.ts';
import { foldedAlike, MOST_CHANGES, MOST_RISKS, problemGroups } from './groups.ts';
import { becameText, briefLines, headText, movesText, problemsText, recordsText } from './words.ts';

/** The review as text with a line end. */
export function reviewText(review: Review, width: number): string {
  const say = (text: string, indent = 0): string[] => paragraph(text, { width, indent });
  const blocks = [
    say(review.verdict),
    [...say(headText(review)), ...say(recordsText(review)), ...say(problemsText(review))],
    briefLines(review).flatMap((line) => say(line)),
    section('New problems', groupLines(review.brought, say)),
    section(
      'Look at these first',
      foldedAlike(review.risks, MOST_RISKS).flatMap(({ shown, more }) => [
        ...shown.flatMap((each) => riskLines(each, say)),
        ...say(more, 2),
      ]),
    ),
    section('What follows', followLines(review, width)),
    section('Changes, field by field', [
      ...foldedAlike(review.changes.filter(isNoMove), MOST_CHANGES).flatMap(({ shown, more }) => [
        ...shown.flatMap((each) => changeLines(each, say)),
        ...say(more, 2),
      ]),
      ...movesText(review.changes).flatMap((move) => say(move, 2)),
    ]),
    section('Problems that are gone', groupLines(review.mended, say)),
    review.notes.flatMap((note) => say(note)),
  ];
  return `${blocks
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

function isNoMove({ became }: ReviewChange): boolean {
  return became !== 'moved';
}

type SayLines = (text: string, indent?: number) => string[];

function paragraph(text: string, { width, indent }: { width: number; indent: number }): string[] {
  if (text === '') return [];
  const hang = indent === 0 ? 0 : 2;
  const room = { width: width - indent - hang, first: width - indent };
  const lines = wrap(visible(text), room);
  return lines.map((line, index) => ' '.repeat(indent + (index === 0 ? 0 : hang)) + line);
}

function section(title: string, lines: readonly string[]): string[] {
  return lines.length === 0 ? [] : [title, ...lines];
}

function groupLines(problems: readonly ReviewProblem[], say: SayLines): string[] {
  return problemGroups(problems).flatMap(({ shown, more }) => [
    ...shown.flatMap((each) => problemLines(each, say)),
    ...(more === '' ? [] : say(more, 2)),
  ]);
}

function problemLines(
  { at, rule, severity, message, hint }: ReviewProblem,
  say: SayLines,
): string[] {
  return [
    ...say(`${at} ${rule} ${severity}: ${message}`, 2),
    ...(hint === '' ? [] : say(`hint: ${hint}`, 4)),
  ];
}

function riskLines({ title, about, at, reasons }: ReviewRisk, say: SayLines): string[] {
  return [
    ...say(`${[title, about].filter((part) => part !== '').join(', ')} (${at})`, 2),
    ...reasons.flatMap(({ text }) => say(`- ${text}`, 4)),
  ];
}

function changeLines(change: ReviewChange, say: SayLines): string[] {
  return [
    ...say(becameText(change), 2),
    ...change.fields.flatMap((field) => say(`${fieldSentence(field)}  (${field.at})`, 4)),
  ];
}

function followLines(
  { changes, risks, consequences, minorDigits }: Review,
  width: number,
): string[] {
  const figures = figureWords(consequences, minorDigits);
  if (figures.length > 0) return figureLines(figures, width);
  return changes.length + risks.length === 0 ? [] : [`${INDENT}No reported figure changes.`];
}

const INDENT = '  ';
/** A label is never squeezed below so many cells; it takes a line of its own then. */
const LEAST_LABEL = 12;
/** Nor is a figure wider than that; a list of words is broken. */
const MOST_CELL = 24;

/** Labels at the left, figures at the right; a label that is too long stands above its figures. */
function figureLines(figures: readonly FigureWords[], width: number): string[] {
  if (figures.length === 0) return [];
  const rows = [
    { label: '', before: 'Before', after: 'After', difference: 'Difference' },
    ...figures,
  ];
  const widest = (cell: (row: FigureWords) => string): number =>
    Math.max(...rows.flatMap((row) => cell(row).split('\n').map(displayWidth)));
  const cells = ['before', 'after', 'difference'] as const;
  const cellOf = (row: FigureWords, key: (typeof cells)[number]): string =>
    wrap(row[key], { width: MOST_CELL }).join('\n');
  const widths = cells.map((key) => widest((row) => cellOf(row, key)));
  const used = widths.reduce((all, each) => all + each + GAP, INDENT.length);
  const room = Math.min(
    Math.max(width - used, LEAST_LABEL),
    widest(({ label }) => visible(label)),
  );
  const columns = [
    { width: room, right: false },
    ...widths.map((each) => ({ width: each, right: true })),
  ];
  return rows.flatMap((row) => {
    const label = wrap(visible(row.label), { width: room }).join('\n');
    const texts = [label, ...cells.map((key) => cellOf(row, key))];
    return abreast({ texts, onFoot: true }, columns).map((line) => INDENT + line);
  });
}
