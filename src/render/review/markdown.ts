/** A review as a comment on a pull request: one that is kept up to date, and safe whatever is in the book. */
import { figureWords } from '../../review/figures.ts';
import type { Review, ReviewProblem } from '../../review/review.ts';
import type { ReviewChange, ReviewRisk, Sized } from '../../review/told-changes.ts';
import { fieldSentence } from '../../review/words.ts';
import { escapeMarkdown } from '../escape.ts';
import { foldedAlike, MOST_CHANGES, MOST_RISKS, problemGroups } from './groups.ts';
import { becameText, briefLines, headText, movesText, problemsText, recordsText } from './words.ts';

/** Stands first in the comment and is not seen: by it the comment of an earlier run is found again. */
export const MARKER = '<!-- saggar-review -->';

/** A comment on GitHub takes no more characters. */
const LONGEST_COMMENT = 65_536;

/** From so many lines on a part is folded. */
const FOLDED_FROM = 8;

/** A part with a heading, whose lines can be left out from the end. */
interface CommentPart {
  readonly title: string;
  /** Stands before the lines, as the head of a table does. */
  readonly head: readonly string[];
  readonly lines: readonly string[];
  /** Which parts get room first: money and risks are whole before anything else is. */
  readonly turn: number;
}

/**
 * The comment with a line end: verdict, counts, then parts, those of many lines folded with their
 * number. What does not fit into a comment is cut at the end of a part, and the cut is said.
 */
export function reviewMarkdown(review: Review): string {
  const { verdict, brought, risks, changes, mended, notes } = review;
  const counts = [recordsText(review), problemsText(review)].map(escapeMarkdown).join(' ');
  const brief = briefLines(review).map((line) => `- ${escapeMarkdown(line)}`);
  const top = [
    MARKER,
    `**${escapeMarkdown(verdict)}**`,
    escapeMarkdown(headText(review)),
    counts,
    ...(brief.length === 0 ? [] : [brief.join('\n')]),
  ];
  const parts: CommentPart[] = [
    { title: 'New problems', turn: 3, head: [], lines: foldedProblems(brought) },
    {
      title: 'Look at these first',
      turn: 2,
      head: [],
      lines: foldedLines(risks, MOST_RISKS, riskLine),
    },
    { ...figuresPart(review), turn: 1 },
    { title: 'Changes, field by field', turn: 4, head: [], lines: changeLines(changes) },
    { title: 'Problems that are gone', turn: 5, head: [], lines: foldedProblems(mended) },
    { title: 'Notes', turn: 0, head: [], lines: notes.map((note) => `- ${escapeMarkdown(note)}`) },
  ];
  const there = parts.filter(({ lines }) => lines.length > 0);
  const room = roomOf(there, LONGEST_COMMENT - lengthOf(top));
  const blocks = there.flatMap((part) => partBlocks(part, room.get(part) ?? 0));
  return `${[...top, ...blocks].join('\n\n')}\n`;
}

/** For the heading of a part, and what is said of a cut. */
const RESERVE = 300;

/** What each part may take, in the order of their turns. */
function roomOf(parts: readonly CommentPart[], all: number): ReadonlyMap<CommentPart, number> {
  const room = new Map<CommentPart, number>();
  let left = all - parts.length * RESERVE;
  for (const part of parts.toSorted((one, other) => one.turn - other.turn)) {
    const wanted = lengthOf([...part.head, ...part.lines]);
    room.set(part, Math.min(left, wanted));
    left -= Math.min(left, wanted);
  }
  return room;
}

function lengthOf(blocks: readonly string[]): number {
  return blocks.reduce((all, block) => all + block.length + 2, 0);
}

function partBlocks({ title, head, lines }: CommentPart, room: number): string[] {
  const count = `${title} (${lines.length})`;
  const shown = fitting(lines, room - lengthOf(head));
  const cut = lines.length - shown.length;
  const note = `${cut} more do not fit into a comment; saggar review --as json has them all.`;
  const body = shown.length === 0 ? [] : [[...head, ...shown].join('\n')];
  const blocks = [...body, ...(cut > 0 ? [`*${note}*`] : [])];
  if (lines.length < FOLDED_FROM) return [`**${title}**`, ...blocks];
  return [`<details><summary>${count}</summary>`, ...blocks, '</details>'];
}

function fitting(lines: readonly string[], room: number): readonly string[] {
  let left = room;
  const end = lines.findIndex((line) => {
    left -= line.length + 1;
    return left < 0;
  });
  return end < 0 ? lines : lines.slice(0, end);
}

function foldedLines<T extends Sized>(
  things: readonly T[],
  most: number,
  lineOf: (thing: T) => string,
): string[] {
  return foldedAlike(things, most).flatMap(({ shown, more }) => [
    ...shown.map(lineOf),
    ...(more === '' ? [] : [`- ${escapeMarkdown(more)}`]),
  ]);
}

function foldedProblems(problems: readonly ReviewProblem[]): string[] {
  return problemGroups(problems).map(({ shown, more }) =>
    [...shown.map(problemLine), ...(more === '' ? [] : [`- ${escapeMarkdown(more)}`])].join('\n'),
  );
}

function problemLine({ at, rule, severity, message, hint }: ReviewProblem): string {
  const line = `- ${severity} ${escapeMarkdown(`${rule} at ${at}: ${message}`)}`;
  return hint === '' ? line : `${line}\n  - ${escapeMarkdown(hint)}`;
}

function riskLine({ title, about, at, reasons }: ReviewRisk): string {
  const name = [title, about].filter((part) => part !== '').join(', ');
  const lines = reasons.map(({ text }) => `  - ${escapeMarkdown(text)}`);
  return [`- ${escapeMarkdown(`${name} (${at})`)}`, ...lines].join('\n');
}

function changeLines(changes: readonly ReviewChange[]): string[] {
  const others = changes.filter(({ became }) => became !== 'moved');
  return [
    ...foldedLines(others, MOST_CHANGES, changeLine),
    ...movesText(changes).map((move) => `- ${escapeMarkdown(move)}`),
  ];
}

function changeLine(change: ReviewChange): string {
  const lines = change.fields.map(
    (field) => `  - ${escapeMarkdown(`${fieldSentence(field)} (${field.at})`)}`,
  );
  return [`- ${escapeMarkdown(becameText(change))}`, ...lines].join('\n');
}

function figuresPart({ consequences, minorDigits }: Review): Omit<CommentPart, 'turn'> {
  const figures = figureWords(consequences, minorDigits);
  return {
    title: 'What follows',
    head: ['| Figure | Before | After | Difference |', '| --- | ---: | ---: | ---: |'],
    lines: figures.map(({ label, before, after, difference }) => {
      const cells = [escapeMarkdown(label), before, after, difference];
      return `| ${cells.join(' | ')} |`;
    }),
  };
}
