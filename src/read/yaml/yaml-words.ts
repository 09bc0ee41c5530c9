/** Says in plain words what the yaml package finds wrong with a text. */
import { isCollection, isScalar, visit, type Document, type Node } from 'yaml';
import type { TextSpan } from '../lines.ts';
import { inQuotes } from './core.ts';
import { spaceAfterColon, spanOf, type NodeRefusal } from './nodes.ts';

type Fault = readonly [code: string, about: RegExp, says: Says];

/** The first fault of a document; the others mostly follow from it. Undefined when there is none. */
export function firstFault(document: Document.Parsed, text: string): NodeRefusal | undefined {
  const [error] = document.errors;
  if (!error) return undefined;
  const says =
    FAULTS.find(([code, about]) => code === error.code && about.test(error.message))?.[2] ??
    ANYTHING;
  return says({ text, document, at: firstLine(text, error.pos) });
}

const ANYTHING = here(
  'this is not YAML that can be read',
  'look at the quotes, colons and indentation here',
);
const COMMENT = here(
  'a # begins a comment only after a space',
  'put a space before the #, or quotes around the value if the # belongs to it',
);
const LOST_LINE = outOfLine('this line belongs neither to the entry above it nor to a next one');
const COLUMN = outOfLine('this line begins in another column than those it belongs with');
const DEEPER = outOfLine('this line is indented deeper than the field above it');
const LIST_ON_LINE = wholeLine(
  'a list begins on the line of its field',
  'begin each entry on a line of its own',
);
const COMMA = here('there is a comma too many', 'take this one out');
const CLOSING = here(
  'this bracket was never opened',
  'take this one out, or put quotes around the whole value',
);
const SECOND_DOCUMENT = here(
  'a second document begins here',
  'take this line out: a file is one document',
);
const LONG_NAME = here(
  'the name of a field is longer than 1,024 characters',
  'put the text into a value',
);

/** What the package's codes and messages are about; the first that fits counts. */
const FAULTS: readonly Fault[] = [
  ['TAB_AS_INDENT', /^/, tab],
  ['MISSING_CHAR', /closing/, openQuote],
  ['MISSING_CHAR', /^Implicit map keys/, noColon],
  ['MISSING_CHAR', /^Comments/, COMMENT],
  ['MISSING_CHAR', /^Sequence item/, LOST_LINE],
  ['MISSING_CHAR', /must end with/, openBracket],
  ['MISSING_CHAR', /^Missing (?:,|space)/, missingComma],
  ['MULTILINE_IMPLICIT_KEY', /^/, noColon],
  ['BLOCK_AS_IMPLICIT_KEY', /^Nested/, colonInValue],
  ['BLOCK_AS_IMPLICIT_KEY', /^A block sequence/, listAmongFields],
  ['BLOCK_IN_FLOW', /^/, missingComma],
  ['BAD_INDENT', /end with/, openBracket],
  ['BAD_INDENT', /^All/, COLUMN],
  ['BAD_SCALAR_START', /^/, badStart],
  ['BAD_DQ_ESCAPE', /^/, badEscape],
  ['UNEXPECTED_TOKEN', /scalar at node end/, afterQuote],
  ['UNEXPECTED_TOKEN', /same line with key/, LIST_ON_LINE],
  ['UNEXPECTED_TOKEN', /^Unexpected ,|empty item/, COMMA],
  ['UNEXPECTED_TOKEN', /flow-(?:map|seq)-end/, CLOSING],
  ['UNEXPECTED_TOKEN', /^Block scalar header|^Not a YAML token/, badStart],
  ['MULTIPLE_DOCS', /^/, SECOND_DOCUMENT],
  ['KEY_OVER_1024_CHARS', /^/, LONG_NAME],
];

/** A text with a fault. */
interface Look {
  readonly text: string;
  readonly document: Document.Parsed;
  /** Where the yaml package found the fault, within one line. */
  readonly at: TextSpan;
}

/** What is said of a fault, and of which place. */
type Says = (look: Look) => NodeRefusal;

/** The part of a range of offsets that lies in its first line. */
export function firstLine(text: string, [start, end]: readonly [number, number]): TextSpan {
  const line = /^[^\r\n]*/.exec(text.slice(start, Math.max(start, end)))?.[0] ?? '';
  return { start, end: start + line.length };
}

/** Fixed words, said of the very place. */
function here(message: string, hint: string): Says {
  return ({ at }) => ({ span: at, message, hint });
}

/** Fixed words, said of what is in the line of the place. */
function wholeLine(message: string, hint: string): Says {
  return ({ text, at }) => ({ span: contentOfLine(text, at.start), message, hint });
}

/** Said of what is in the line of the place, which begins in another column than those above it. */
function outOfLine(message: string): Says {
  return ({ text, at }) => {
    const span = contentOfLine(text, at.start);
    const column = isRecord(text, span) ? 0 : columnAbove(text, span);
    const line = ' '.repeat(column) + text.slice(span.start, span.end);
    return { span, message, hint: asLine(line) };
  };
}

/** Whether a line is an id with fields below it, and no field with a list. */
function isRecord(text: string, { start, end }: TextSpan): boolean {
  if (!/^[\w-]+:$/.test(text.slice(start, end)) || indentOf(text, start) > 1) return false;
  return /^[^\n]*\n *[\w-]+:/.test(text.slice(start));
}

/** The hint with a whole line as it is to be. */
function asLine(line: string): string {
  return `write the line as: ${line}`;
}

/** Where the fields begin that the line above is one of; for a dash, the dashes. */
function columnAbove(text: string, { start, end }: TextSpan): number {
  const above = text.slice(0, text.lastIndexOf('\n', start) + 1);
  const isEntry = /^-(?:\s|$)/.test(text.slice(start, end));
  const lines = above.split('\n').filter((line) => line.trim() !== '');
  const like = isEntry ? lines.findLast((line) => /^ *- /.test(line)) : lines.at(-1);
  return /^ */.exec((isEntry ? like : like?.replace(/^( *)- /, '$1  ')) ?? '')?.[0].length ?? 0;
}

function tab({ text, at }: Look): NodeRefusal {
  const [line = ''] = /^[^\r\n]*/.exec(text.slice(text.lastIndexOf('\n', at.start - 1) + 1)) ?? [];
  const [indent = ''] = /^\s*/.exec(line) ?? [];
  const spaced = indent.replaceAll('\t', '  ') + line.slice(indent.length);
  return { span: at, message: 'this line is indented with a tab', hint: asLine(spaced) };
}

/** A list whose dashes are not under its field. */
function listAmongFields({ text, at }: Look): NodeRefusal {
  const dash = /^[ \t]*-(?:[ \t]|$)/gm;
  dash.lastIndex = at.start;
  const span = contentOfLine(text, dash.exec(text)?.index ?? at.start);
  const field = contentOfLine(text, at.start);
  const line = `${' '.repeat(indentOf(text, field.start) + 2)}${text.slice(span.start, span.end)}`;
  return {
    span,
    message: 'this dash is further left than the field that its list belongs to',
    hint: `indent all dashes of the list alike: ${asLine(line)}`,
  };
}

function indentOf(text: string, offset: number): number {
  return offset - text.lastIndexOf('\n', offset - 1) - 1;
}

/** A quote without its partner. */
function openQuote(look: Look): NodeRefusal {
  const { text, at } = look;
  const start = openedBy(look, (node) => isScalar(node) && spanOf(node).end >= at.start);
  const quote = text.charAt(start);
  const rest = text.slice(start + 1, contentOfLine(text, start).end);
  const isInBraces = /[{[][^}\]]*$/.test(text.slice(text.lastIndexOf('\n', start) + 1, start));
  const [value = ''] = (isInBraces ? /^.*?(?=\s*(?:,\s+[\w-]+:|[}\]]|$))/ : /^.*/).exec(rest) ?? [];
  return {
    span: { start, end: start + 1 + value.length },
    message: `the quote ${quote} is opened here and not closed`,
    hint: `write: ${quote}${value}${quote}`,
  };
}

/** A bracket without its partner. */
function openBracket(look: Look): NodeRefusal {
  const { text } = look;
  const start = openedBy(look, (node) => isCollection(node) && isOpen(text, spanOf(node)));
  const bracket = text.charAt(start);
  const closing = bracket === '[' ? ']' : ' }';
  const line = text.slice(start, contentOfLine(text, start).end);
  const isOneLine = !line.endsWith(',') && line.length > 1;
  return {
    span: { start, end: start + (isOneLine ? line.length : 1) },
    message: `the bracket ${bracket} is opened here and not closed`,
    hint: isOneLine ? `write: ${line}${closing}` : `put${closing} at its end`,
  };
}

/** A line that is no field, for want of a colon or of the space after it. */
export function noColon({ text, at }: Look): NodeRefusal {
  const line = text.slice(at.start, at.end);
  if (/^[\w-]+:\S/.test(line)) return { span: at, ...spaceAfterColon(line) };
  return {
    span: at,
    message: `"${line}" is neither a field nor part of the value above it`,
    hint: `${withColon(line)}indent the line deeper if it goes on with a text`,
  };
}

function withColon(line: string): string {
  const [, name, value] = /^([a-z][\w-]*)\s+(\S.*)$/.exec(line) ?? [];
  return name === undefined || value === undefined
    ? 'write a name, a colon and a space before the value, or '
    : `write ${name}: ${value}; or `;
}

/** A field within a value: in the same line, or in the next one by its indentation. */
function colonInValue(look: Look): NodeRefusal {
  const { text, at } = look;
  const line = contentOfLine(text, at.start);
  const value = { start: at.start, end: line.end };
  if (/^-[^\s-]/.test(text.slice(line.start, line.end)))
    return {
      span: line,
      message: 'a space is missing after the dash',
      hint: `write: - ${text.slice(line.start + 1, line.end)}`,
    };
  if (/:(?:\s|$)/.test(text.slice(value.start, value.end)))
    return {
      span: value,
      message: 'there is a colon and a space inside the value, as if it were a field',
      hint: `write ${inQuotes(text.slice(value.start, value.end))}, in quotes`,
    };
  const next = text.indexOf('\n', line.end) + 1;
  return DEEPER({ ...look, at: { start: next, end: next } });
}

function missingComma({ text, at }: Look): NodeRefusal {
  const [, before, after] =
    /^(.*\S)\s+([\w-]+:(?:\s.*|$))/.exec(text.slice(at.start, at.end)) ?? [];
  return {
    span: at,
    message: 'a comma is missing here',
    hint:
      before === undefined || after === undefined
        ? 'put a comma and a space between what is in brackets'
        : `write: ${before}, ${after}`,
  };
}

/** A sign that means something else at the beginning of a value. */
function badStart({ text, at }: Look): NodeRefusal {
  const line = contentOfLine(text, at.start);
  const before = /[|>][^|>]*$/.exec(text.slice(line.start, at.start));
  const start = before ? line.start + before.index : at.start;
  return {
    span: { start, end: line.end },
    message: `a value can't begin with ${text.charAt(start)}`,
    hint: `write ${inQuotes(text.slice(start, line.end))}, in quotes`,
  };
}

/** A backslash that begins no known escape. */
function badEscape({ text, at }: Look): NodeRefusal {
  const span = { start: at.start, end: at.start + 2 };
  return {
    span,
    message: `${text.slice(span.start, span.end)} means nothing within double quotes`,
    hint: `write \\${text.slice(span.start, span.end)}, with a second backslash, or use single quotes`,
  };
}

/** Text after a quoted value. */
function afterQuote({ text, at }: Look): NodeRefusal {
  const before = text.slice(0, at.start).trimEnd();
  const quote = before.at(-1) ?? '';
  const start = Math.max(
    before.lastIndexOf(quote, before.length - 2),
    before.lastIndexOf('\n') + 1,
  );
  const { end } = contentOfLine(text, at.start);
  return {
    span: { start, end },
    message: `there is text after the closing ${quote}`,
    hint: `write ${inQuotes(text.slice(start, end))}, with quotes around the whole value`,
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

function isOpen(text: string, { start, end }: TextSpan): boolean {
  const opening = text.charAt(start);
  const closing = opening === '[' ? ']' : '}';
  return /[[{]/.test(opening) && text.charAt(end - 1) !== closing;
}

/** What stands in the line of an offset, without the spaces around it. */
function contentOfLine(text: string, offset: number): TextSpan {
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  const [line = ''] = /^[^\r\n]*/.exec(text.slice(lineStart)) ?? [];
  const spaces = line.length - line.trimStart().length;
  return { start: lineStart + spaces, end: lineStart + line.trimEnd().length };
}
