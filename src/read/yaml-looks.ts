/** Looks at the text around a fault, so that its place and its words are those a person would choose. */
import { isCollection, isScalar, visit, type Document, type Node } from 'yaml';
import type { Span } from './lines.ts';
import { blankAfterColon, spanOf, type Refusal } from './nodes.ts';

/** A text with a fault. */
export interface Look {
  readonly text: string;
  readonly document: Document.Parsed;
  /** Where the yaml package found the fault, within one line. */
  readonly at: Span;
}

/** What is said of a fault, and of which place. */
export type Says = (look: Look) => Refusal;

/** The part of a range of offsets that lies in its first line. */
export function firstLine(text: string, [start, end]: readonly [number, number]): Span {
  const line = /^[^\r\n]*/.exec(text.slice(start, Math.max(start, end)))?.[0] ?? '';
  return { start, end: start + line.length };
}

/** Fixed words, said of the very place. */
export function here(message: string, hint: string): Says {
  return ({ at }) => ({ span: at, message, hint });
}

/** Fixed words, said of what stands in the line of the place. */
export function wholeLine(message: string, hint: string): Says {
  return ({ text, at }) => ({ span: contentOfLine(text, at.start), message, hint });
}

/** A quote without its partner. */
export function openQuote(look: Look): Refusal {
  const { text, at } = look;
  const start = openedBy(look, (node) => isScalar(node) && spanOf(node).end >= at.start);
  return {
    span: { start, end: start + 1 },
    message: `the quote ${text.charAt(start)} is opened here and not closed`,
    hint: 'put the same quote at the end of the value',
  };
}

/** A bracket without its partner. */
export function openBracket(look: Look): Refusal {
  const { text } = look;
  const start = openedBy(look, (node) => isCollection(node) && isOpen(text, spanOf(node)));
  const bracket = text.charAt(start);
  return {
    span: { start, end: start + 1 },
    message: `the bracket ${bracket} is opened here and not closed`,
    hint: `put ${bracket === '[' ? ']' : '}'} at its end`,
  };
}

/** A line that is no field, for want of a colon or of the blank behind it. */
export function noColon({ text, at }: Look): Refusal {
  const line = text.slice(at.start, at.end);
  if (/^[\w-]+:\S/.test(line)) return { span: at, ...blankAfterColon(line) };
  return {
    span: at,
    message: `"${line}" is neither a field nor part of the value above it`,
    hint: 'write "name: value", or indent the line deeper if it goes on with a text',
  };
}

/** A field within a value: in the same line, or in the next one by its indentation. */
export function colonInValue({ text, at }: Look): Refusal {
  const line = contentOfLine(text, at.start);
  const value = { start: at.start, end: line.end };
  if (/^-[^\s-]/.test(text.slice(line.start, line.end)))
    return {
      span: { start: line.start, end: line.start + 1 },
      message: 'a blank is missing after the dash',
      hint: `write "- ${text.slice(line.start + 1, line.end)}"`,
    };
  if (/:(?:\s|$)/.test(text.slice(value.start, value.end)))
    return {
      span: value,
      message: 'a colon and a blank stand inside the value, as if it were a field',
      hint: `put the value in quotes: ${quoted(text.slice(value.start, value.end))}`,
    };
  return {
    span: contentOfLine(text, text.indexOf('\n', line.end) + 1),
    message: 'this line is indented deeper than the field above it',
    hint: 'begin all fields of a record in one column',
  };
}

function quoted(value: string): string {
  return value.includes('"') ? `'${value.replaceAll("'", "''")}'` : `"${value}"`;
}

/** Fields in brackets without a comma between them. */
export function missingComma({ at }: Look): Refusal {
  return {
    span: at,
    message: 'a comma is missing here',
    hint: 'put a comma and a blank between what stands in brackets',
  };
}

/** A sign that means something else at the beginning of a value. */
export function badStart({ text, at }: Look): Refusal {
  const line = contentOfLine(text, at.start);
  const before = /[|>][^|>]*$/.exec(text.slice(line.start, at.start));
  const start = before ? line.start + before.index : at.start;
  return {
    span: { start, end: line.end },
    message: `a value can't begin with ${text.charAt(start)}`,
    hint: 'put the value in quotes',
  };
}

/** A backslash that begins no known escape. */
export function badEscape({ text, at }: Look): Refusal {
  const span = { start: at.start, end: at.start + 2 };
  return {
    span,
    message: `${text.slice(span.start, span.end)} means nothing within double quotes`,
    hint: 'write \\\\ for a backslash, or use single quotes',
  };
}

/** Text behind a quoted value. */
export function afterQuote({ text, at }: Look): Refusal {
  const quote = text.slice(0, at.start).trimEnd().at(-1) ?? '';
  const own = quote === '"' ? '\\"' : "''";
  return {
    span: at,
    message: `text stands behind the closing ${quote}`,
    hint: `put the whole value in quotes, and write ${own} for a ${quote} inside it`,
  };
}

/** Where the last node begins that is in question and stands before the fault; else the fault. */
function openedBy({ document, at }: Look, isInQuestion: (node: Node) => boolean): number {
  let start = at.start;
  visit(document, {
    Node: (_, node) => {
      const opens = spanOf(node).start;
      if (opens < at.start && isInQuestion(node)) start = opens;
    },
  });
  return start;
}

function isOpen(text: string, { start, end }: Span): boolean {
  const opening = text.charAt(start);
  const closing = opening === '[' ? ']' : '}';
  return /[[{]/.test(opening) && text.charAt(end - 1) !== closing;
}

/** What stands in the line of an offset, without the blanks around it. */
function contentOfLine(text: string, offset: number): Span {
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  const [line = ''] = /^[^\r\n]*/.exec(text.slice(lineStart)) ?? [];
  const blanks = line.length - line.trimStart().length;
  return { start: lineStart + blanks, end: lineStart + line.trimEnd().length };
}
