/** A review as a comment on a pull request: one that is kept up to date, and safe whatever is in the book. */
import { figureWords } from '../../review/figures.ts';
import type { Review, ReviewChange, ReviewProblem } from '../../review/review.ts';
import type { ReviewRisk } from '../../review/risks.ts';
import { fieldSentence } from '../../review/words.ts';
import { escapeMarkdown } from '../escape.ts';
import { becameText, headText, movesText, problemsText, recordsText } from './words.ts';

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
}

/**
 * The comment with a line end: verdict, counts, then parts, those of many lines folded with their
 * number. What does not fit into a comment is cut at the end of a part, and the cut is said.
 */
export function reviewMarkdown(review: Review): string {
  const { verdict, brought, risks, changes, mended, notes } = review;
  const counts = [recordsText(review), problemsText(review)].map(escapeMarkdown).join(' ');
  const top = [MARKER, `**${escapeMarkdown(verdict)}**`, escapeMarkdown(headText(review)), counts];
  const parts: CommentPart[] = [
    { title: 'New problems', head: [], lines: brought.map(problemLine) },
    { title: 'Look at these first', head: [], lines: risks.map(riskLine) },
    figuresPart(review),
    { title: 'Changes, field by field', head: [], lines: changeLines(changes) },
    { title: 'Problems that are gone', head: [], lines: mended.map(problemLine) },
    { title: 'Notes', head: [], lines: notes.map((note) => `- ${escapeMarkdown(note)}`) },
  ];
  const blocks = [...top];
  for (const part of parts.filter(({ lines }) => lines.length > 0))
    blocks.push(...partBlocks(part, LONGEST_COMMENT - lengthOf(blocks)));
  return `${blocks.join('\n\n')}\n`;
}

/** Room for the headings of the parts that are still to come, and for what is said of a cut. */
const RESERVE = 2_000;

function lengthOf(blocks: readonly string[]): number {
  return blocks.reduce((all, block) => all + block.length + 2, 0);
}

function partBlocks({ title, head, lines }: CommentPart, room: number): string[] {
  const count = `${title} (${lines.length})`;
  const shown = fitting(lines, room - RESERVE - head.join('\n').length);
  const cut = lines.length - shown.length;
  const note = `${cut} more do not fit into a comment; saggar review shows them all.`;
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
    ...others.map(changeLine),
    ...movesText(changes).map((move) => `- ${escapeMarkdown(move)}`),
  ];
}

function changeLine(change: ReviewChange): string {
  const lines = change.fields.map(
    (field) => `  - ${escapeMarkdown(`${fieldSentence(field)} (${field.at})`)}`,
  );
  return [`- ${escapeMarkdown(becameText(change))}`, ...lines].join('\n');
}

function figuresPart({ consequences, minorDigits }: Review): CommentPart {
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
