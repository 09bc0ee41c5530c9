/** Texts that ask more of a reader than any book: made where they are wanted, some as large as a file may be. */

const LARGEST = 5 * 1024 * 1024;

/** A unit again and again, up to a size. */
function fill(unit: string, size = LARGEST - 40): string {
  return unit.repeat(Math.floor(size / unit.length));
}

function many(count: number, make: (index: number) => string): string {
  return Array.from({ length: count }, (_, index) => make(index)).join('');
}

const CONFLICT = '<<<<<<< ours\na: 1\n=======\na: 2\n>>>>>>> theirs\n';

/** A text by its name, with a part of what must be said of it: line, column, rule and words. */
export interface HeavyText {
  readonly text: () => string;
  readonly said: RegExp;
}

const RECORD = /error: this record has more than 64,000 lines/;
const FILE = /error: up to here the file has more/;
const RECORDS = /:100001:1: error: the file has more than 100,000 records/;
const DEEP = /error: this is nested deeper than 64 levels/;
const MERGE = /:1:1: error: a merge is not settled in/;

const texts = (all: Record<string, readonly [() => string, RegExp]>): Record<string, HeavyText> =>
  Object.fromEntries(Object.entries(all).map(([name, [text, said]]) => [name, { text, said }]));

/** What each of them must end with soon, and within little memory; several fit in one studio. */
export const HEAVY: Readonly<Record<string, Readonly<Record<string, HeavyText>>>> = {
  brackets: texts({
    brackets: [() => fill('['), /:1:65: error: this is nested deeper than 64 levels/],
    braces: [() => fill('{'), DEEP],
    pairs: [() => `a: ${'{a: '.repeat(100_000)}\n`, DEEP],
    closing: [() => fill(']'), RECORD],
    commas: [() => `a: [${fill(',')}]\n`, RECORD],
  }),
  items: texts({
    items: [() => `a: [${fill('a,')}a]\n`, RECORD],
    lines: [() => `a: [\n${fill('  a,\n')}  a]\n`, RECORD],
    fields: [() => `a: {${many(400_000, (i) => `k${i}: 1,`)}}\n`, RECORD],
  }),
  quotes: texts({
    double: [() => fill('"'), RECORD],
    open: [() => `a: "${fill('x')}`, RECORD],
    escapes: [() => `a: "${fill('\\q')}"\n`, RECORD],
    doubled: [() => `a: '${fill("''")}'\n`, RECORD],
    each: [() => many(300_000, (i) => `a${i}: "x\n`), RECORDS],
  }),
  properties: texts({
    anchors: [
      () => `${many(4000, (i) => `&a${i}\n`)}a: 1\n`,
      /:1:1: error: a value is named with &/,
    ],
    row: [() => `a: ${fill('&a ')}\n`, /:1:4: error: a value is named with &/],
    aliases: [() => `a: [${fill('*a,')}]\n`, /:1:5: error: a value that begins with \*/],
    tags: [() => `a: ${fill('!t ')}\n`, /:1:4: error: a value is given a type with !/],
  }),
  margins: texts({
    dashes: [() => fill('- '), DEEP],
    entries: [() => fill('- a\n'), FILE],
    questions: [() => fill('? '), DEEP],
    fields: [() => fill('a: 1\n'), RECORDS],
    words: [() => fill('x\n'), RECORDS],
  }),
  nesting: texts({
    fields: [() => many(3200, (i) => `${' '.repeat(i)}a:\n`), /:65:65: error: this is nested/],
    lists: [() => many(3000, (i) => `${' '.repeat(i)}-\n`), DEEP],
    row: [() => `a:\n  ${fill('- ', 1_000_000)}x\n`, DEEP],
    returns: [() => `a: ${fill('[\r\n ')}`, DEEP],
  }),
  scalars: texts({
    literal: [() => `a: |\n${fill('  x\n')}`, RECORD],
    empty: [() => `a: |\n${fill('\n')}  x\n`, RECORD],
    folded: [() => `a: >\n${fill('  x\n\n')}  x\n`, RECORD],
    name: [() => `${fill('k')}: 1\n`, RECORD],
  }),
  lines: texts({
    plain: [() => `a: ${fill('x')}\n`, /:1:1: error: a has no fields/],
    comments: [() => `a: [\n${fill(' #x\n')} b]\n`, RECORD],
    tabs: [() => `a:\n${fill('\tb: 1\n')}`, RECORD],
    returns: [() => fill('a: 1\r'), /:1:5: error: a carriage return stands alone/],
  }),
  repeated: texts({
    fields: [() => `a:\n${fill('  b: 1\n')}`, RECORD],
    records: [
      () => many(60_000, () => 'a:\n  note: x\n'),
      /59,899 more errors of the rule duplicate-id/,
    ],
  }),
  unknown: texts({
    fields: [
      () => `a:\n${many(20_000, (i) => `  field-${i}: 1\n`)}`,
      /19,9\d\d more errors of the rule schema/,
    ],
  }),
  loose: texts({
    quotes: [
      () => many(50_000, (i) => `a${i}:\n  supplier: 1\n`),
      /more errors of the rule schema/,
    ],
  }),
  merges: texts({
    conflicts: [() => fill(CONFLICT), MERGE],
    strays: [() => fill('<<<<<<<\n'), MERGE],
  }),
};
