/** Says in plain words what the yaml package finds wrong with a text. */
import type { Document, YAMLError } from 'yaml';
import type { Refusal } from './nodes.ts';
import {
  afterQuote,
  badEscape,
  badStart,
  colonInValue,
  firstLine,
  here,
  missingComma,
  noColon,
  openBracket,
  openQuote,
  wholeLine,
  type Says,
} from './yaml-looks.ts';

type Fault = readonly [code: string, about: RegExp, says: Says];

/** The first fault of a document; the others mostly follow from it. Undefined when there is none. */
export function firstFault(document: Document.Parsed, text: string): Refusal | undefined {
  const [error] = document.errors;
  if (!error) return undefined;
  const says = FAULTS.find((fault) => isAbout(error, fault))?.[2] ?? ANYTHING;
  return says({ text, document, at: firstLine(text, error.pos) });
}

function isAbout({ code, message }: YAMLError, [wanted, about]: Fault): boolean {
  return code === wanted && about.test(message);
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
