/** Says in plain words what the yaml package finds wrong with a text. */
import { isCollection, isScalar, visit, type Document, type Node } from 'yaml';
import type { TextSpan } from '../lines.ts';
import { blankAfterColon, spanOf, type NodeRefusal } from './nodes.ts';

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
const TAB = here('this line is indented with a tab', 'indent with blanks, two for each level');
const COMMENT = here(
  'a # begins a comment only behind a blank',
  'put a blank before the #, or quotes around the value if the # belongs to it',
);
const LOST_LINE = wholeLine(
  'this line belongs neither to the entry above it nor to a next one',
  'put it under the first field of its entry, or begin it with a dash and a blank',
);
const COLUMN = wholeLine(
  'this line begins in another column than those it belongs with',
  'begin all fields of a record, and all dashes of a list, in one column',
);
const LIST_AMONG_FIELDS = wholeLine(
  'an entry of a list stands among the fields of a record',
  'put the list under a field of its own',
);
const LIST_ON_LINE = wholeLine(
  'a list begins on the line of its field',
  'begin each entry on a line of its own',
);
const COMMA = here('there is a comma too many', 'take one comma away');
const CLOSING = here('this bracket was never opened', 'take it away, or quote the whole value');
const SECOND_DOCUMENT = here(
  'a second document begins here',
  'take the line away that is only --- or ...; a file is one document',
);
const LONG_NAME = here(
  'the name of a field is longer than 1,024 characters',
  'put the text into a value',
);

/** What the package's codes and messages are about; the first that fits counts. */
const FAULTS: readonly Fault[] = [
  ['TAB_AS_INDENT', /^/, TAB],
  ['MISSING_CHAR', /closing/, openQuote],
  ['MISSING_CHAR', /^Implicit map keys/, noColon],
  ['MISSING_CHAR', /^Comments/, COMMENT],
  ['MISSING_CHAR', /^Sequence item/, LOST_LINE],
  ['MISSING_CHAR', /must end with/, openBracket],
  ['MISSING_CHAR', /^Missing (?:,|space)/, missingComma],
  ['MULTILINE_IMPLICIT_KEY', /^/, noColon],
  ['BLOCK_AS_IMPLICIT_KEY', /^Nested/, colonInValue],
  ['BLOCK_AS_IMPLICIT_KEY', /^A block sequence/, LIST_AMONG_FIELDS],
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

/** Fixed words, said of what stands in the line of the place. */
function wholeLine(message: string, hint: string): Says {
  return ({ text, at }) => ({ span: contentOfLine(text, at.start), message, hint });
}

/** A quote without its partner. */
function openQuote(look: Look): NodeRefusal {
  const { text, at } = look;
  const start = openedBy(look, (node) => isScalar(node) && spanOf(node).end >= at.start);
  return {
    span: { start, end: start + 1 },
    message: `the quote ${text.charAt(start)} is opened here and not closed`,
    hint: 'put the same quote at the end of the value',
  };
}

/** A bracket without its partner. */
function openBracket(look: Look): NodeRefusal {
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
export function noColon({ text, at }: Look): NodeRefusal {
  const line = text.slice(at.start, at.end);
  if (/^[\w-]+:\S/.test(line)) return { span: at, ...blankAfterColon(line) };
  return {
    span: at,
    message: `"${line}" is neither a field nor part of the value above it`,
    hint: 'write "name: value", or indent the line deeper if it goes on with a text',
  };
}

/** A field within a value: in the same line, or in the next one by its indentation. */
function colonInValue({ text, at }: Look): NodeRefusal {
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
function missingComma({ at }: Look): NodeRefusal {
  return {
    span: at,
    message: 'a comma is missing here',
    hint: 'put a comma and a blank between what stands in brackets',
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
    hint: 'put the value in quotes',
  };
}

/** A backslash that begins no known escape. */
function badEscape({ text, at }: Look): NodeRefusal {
  const span = { start: at.start, end: at.start + 2 };
  return {
    span,
    message: `${text.slice(span.start, span.end)} means nothing within double quotes`,
    hint: 'write \\\\ for a backslash, or use single quotes',
  };
}

/** Text behind a quoted value. */
function afterQuote({ text, at }: Look): NodeRefusal {
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

function isOpen(text: string, { start, end }: TextSpan): boolean {
  const opening = text.charAt(start);
  const closing = opening === '[' ? ']' : '}';
  return /[[{]/.test(opening) && text.charAt(end - 1) !== closing;
}

/** What stands in the line of an offset, without the blanks around it. */
function contentOfLine(text: string, offset: number): TextSpan {
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  const [line = ''] = /^[^\r\n]*/.exec(text.slice(lineStart)) ?? [];
  const blanks = line.length - line.trimStart().length;
  return { start: lineStart + blanks, end: lineStart + line.trimEnd().length };
}
