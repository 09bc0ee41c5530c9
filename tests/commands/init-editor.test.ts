import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { KINDS, type Kind } from '../../src/book.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { locate } from '../../src/read/place.ts';
import { readStudio } from '../../src/read/read.ts';
import { modelineFor } from '../../src/write/target.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { openEditor, type Editor, type Position } from '../helpers/language-server.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { withStudio, writeStudio, type StudioFolder } from '../helpers/write-studio.ts';
import { some } from '../helpers/tier.ts';

const SCHEMAS = resolve(import.meta.dirname, '../../schema');

let studio: StudioFolder;
let editor: Editor;
let opened = 0;

beforeAll(async () => {
  studio = writeStudio({});
  await runCommand('init', {}, { argument: '.', folder: studio.folder });
  editor = await openEditor(studio.folder);
});

afterAll(async () => {
  await editor.close();
  studio.remove();
});

/** The text with the modeline of its kind, and where its mark ‸ stands. */
function marked(file: string, kind: Kind, text: string): { text: string; at: Position } {
  const whole = `${modelineFor(kind, file)}\n${text}`;
  const before = whole.slice(0, whole.indexOf('‸')).split('\n');
  const at = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  return { text: whole.replace('‸', ''), at };
}

/** A file of a kind that no other test has opened, in a folder of the kind's folder. */
function newFile(kind: Kind): string {
  return `${kind}/2026/new-${++opened}.yaml`;
}

async function completionAt(kind: Kind, text: string): Promise<readonly string[]> {
  const file = newFile(kind);
  const { text: whole, at } = marked(file, kind, text);
  await editor.diagnose(file, whole);
  return editor.complete(file, at);
}

async function hoverAt(kind: Kind, text: string): Promise<string> {
  const file = newFile(kind);
  const { text: whole, at } = marked(file, kind, text);
  await editor.diagnose(file, whole);
  return editor.hover(file, at);
}

interface Field {
  readonly description: string;
}

function recordFields(kind: Kind): Readonly<Record<string, Field>> {
  const text = readFileSync(join(studio.folder, '.schema', `${kind}.json`), 'utf8');
  const schema = JSON.parse(text) as {
    $defs: { record: { properties: Record<string, Field> } };
  };
  return schema.$defs.record.properties;
}

describe('help for the editor', () => {
  it('gives every schema without the words of the program, and one of the ids', () => {
    const copies = join(studio.folder, '.schema');
    const names = readdirSync(SCHEMAS).filter((name) => name.endsWith('.json'));
    // One for each kind, the settings, and the values that they share.
    expect(names).toHaveLength(KINDS.length + 2);
    expect(readdirSync(copies).sort()).toEqual([...names, 'ids.json'].sort());
    for (const name of names) {
      const copy = readFileSync(join(copies, name), 'utf8');
      expect(copy).not.toContain('"x-');
      expect(fieldNames(copy)).toEqual(fieldNames(readFileSync(join(SCHEMAS, name), 'utf8')));
    }
  });

  it('has in the schema of ids whatever another refers to there', () => {
    const copies = join(studio.folder, '.schema');
    const texts = readdirSync(copies).map((name) => readFileSync(join(copies, name), 'utf8'));
    const asked = texts.flatMap((text) => text.match(/(?<=ids\.json#\/\$defs\/)[a-z-]+/g) ?? []);
    const { $defs } = JSON.parse(readFileSync(join(copies, 'ids.json'), 'utf8')) as {
      $defs: object;
    };
    expect([...new Set(asked)].sort()).toEqual(Object.keys($defs).sort());
    expect(asked).toContain('materials-recipes');
  });

  it('leads from the first line of every file to the schema of its kind', () => {
    const { folder } = studio;
    for (const [file, text] of Object.entries(filesIn(folder))) {
      const [, path = ''] = /^# yaml-language-server: \$schema=(\S+)\n/.exec(text) ?? [];
      const schema = resolve(dirname(join(folder, file)), path);
      expect(existsSync(schema)).toBe(true);
      expect(basename(schema, '.json')).toBe(file.split('/')[0]?.replace('.yaml', ''));
    }
  });

  it('knows the way from a folder in a folder', () => {
    expect(modelineFor('materials', 'materials.yaml')).toBe(
      '# yaml-language-server: $schema=.schema/materials.json',
    );
    expect(modelineFor('sales', 'sales/2026/03.yaml')).toBe(
      '# yaml-language-server: $schema=../../.schema/sales.json',
    );
  });
});

/** The names of all fields in a schema's text, in their order. */
function fieldNames(text: string): readonly string[] {
  const names: string[] = [];
  JSON.parse(text, (key, value: unknown) => {
    if (key === 'properties') names.push(...Object.keys(value as object));
    return value;
  });
  return names;
}

describe('an editor on a new studio', () => {
  it('finds nothing wrong in any file', async () => {
    for (const [file, text] of some(Object.entries(filesIn(studio.folder)), 16))
      expect({ file, found: await editor.diagnose(file, text) }).toEqual({ file, found: [] });
  });

  it.each(KINDS)('offers the fields of a record of %s', async (kind) => {
    const offered = await completionAt(kind, 'some-id:\n  ‸\n');
    expect(offered).toEqual(expect.arrayContaining(Object.keys(recordFields(kind))));
  });

  it('leaves out the fields that are there, and offers those of a line of a list', async () => {
    const offered = await completionAt('channels', 'some-id:\n  name: Door\n  ‸\n');
    expect(offered).toContain('kind');
    expect(offered).not.toContain('name');
    const line = 'some-id:\n  load:\n    - lot: p260308kt\n      ‸\n';
    const fields = ['in', 'first', 'second', 'lost', 'why', 'refire', 'space'];
    expect(await completionAt('firings', line)).toEqual(expect.arrayContaining(fields));
  });

  it.each<[Kind, string, string[]]>([
    ['kilns', 'a:\n  fuel: ‸\n', ['electricity', 'propane', 'natural-gas', 'wood']],
    ['channels', 'a:\n  kind: ‸\n', ['direct', 'fair', 'online', 'wholesale', 'consignment']],
    ['materials', 'a:\n  unit: ‸\n', ['g', 'kg', 'lb', 'imp-gal', 'each']],
    ['firings', 'a:\n  kind: ‸\n', ['bisque', 'glaze', 'once', 'lustre', 'raku', 'test']],
    [
      'firings',
      'a:\n  load:\n    - lot: b\n      why:\n        ‸\n',
      ['cracked', 's-crack', 'crawled'],
    ],
    ['pieces', 'a:\n  lost:\n    - count: 1\n      why: ‸\n', ['cracked', 'dropped']],
  ])('offers the words that may stand in %s', async (kind, text, words) => {
    expect(await completionAt(kind, text)).toEqual(expect.arrayContaining(words));
  });

  it.each<[Kind, string, string]>([
    ['firings', 'a:\n  co‸ne: "6"\n', 'cone'],
    ['sales', 'a:\n  pa‸id: no\n', 'paid'],
    ['materials', 'a:\n  conta‸ins: [silica]\n', 'contains'],
  ])('shows over a field of %s what it means', async (kind, text, field) => {
    const { description } = recordFields(kind)[field] ?? { description: 'no such field' };
    const shown = await hoverAt(kind, text);
    expect(unescaped(shown)).toContain(description);
  });
});

/** Hovers are in Markdown, where a backslash keeps a sign as it is. */
function unescaped(text: string): string {
  return text.replaceAll(/\\(?=\W)/g, '').replaceAll('&nbsp;', ' ');
}

/** The rules that are about the form of one file, which is all that an editor can see. */
const OF_FORM = ['schema', 'needs-quotes', 'number-form', 'yaml-error'];

/** Lines of a file where the check finds a fault of form. */
async function linesByCheck(file: string, text: string): Promise<number[]> {
  return withStudio({ 'studio.yaml': SETTINGS, [file]: text }, async (folder) => {
    const reading = await readStudio(folder, { memory: NO_MEMORY });
    if ('refused' in reading) throw new Error(reading.refused);
    const { findings } = checkStudio(reading, '2026-06-30');
    const problems = await locate(folder, findings);
    const ofForm = problems.filter(
      ({ place, rule }) => place.file === file && OF_FORM.includes(rule),
    );
    return asLines(ofForm.map(({ place }) => place.line));
  });
}

const SETTINGS = 'format: 1\nname: Test\ncurrency: USD\n';

function asLines(lines: readonly number[]): number[] {
  return [...new Set(lines)].sort((a, b) => a - b);
}

/** Lines of a file where the editor underlines something. */
async function linesByEditor(file: string, text: string): Promise<number[]> {
  const found = await editor.diagnose(file, text);
  return asLines(found.map(({ range }) => range.start.line + 1));
}

const LOT = 'p260308kt:\n  date: 2026-03-08\n  product: mug\n  made: 12\n';

describe('the editor underlines the line that the check names', () => {
  it.each<[string, Kind, string, number[]]>([
    ['a misspelt field', 'pieces', LOT.replace('product', 'prodct') + '  product: mug\n', [4]],
    ['a field that is missing', 'pieces', `${LOT}p260309kt:\n  date: 2026-03-09\n  made: 2\n`, [6]],
    [
      'a word that does not go there',
      'materials',
      'a:\n  name: A\n  kind: clays\n  unit: kg\n',
      [4],
    ],
    ['a day that is none', 'pieces', LOT.replace('03-08', '02-30'), [3]],
    ['a day in another order', 'pieces', LOT.replace('2026-03-08', '08.03.2026'), [3]],
    ['a currency sign', 'products', 'mug:\n  name: Mug\n  price: $35\n', [4]],
    [
      'a unit that nobody knows',
      'used',
      'a:\n  date: 2026-03-08\n  material: b\n  quantity: 2 kgs\n',
      [5],
    ],
    ['a cone without quotes', 'recipes', recipe('cone: 04'), [4]],
    ['half a piece', 'pieces', LOT.replace('12', '12.5'), [5]],
    ['a number below zero', 'pieces', LOT.replace('12', '-12'), [5]],
    ['a list where one value goes', 'pieces', LOT.replace('mug', '[mug, bowl]'), [4]],
    [
      'a cause misspelt in a line of a list',
      'firings',
      'a:\n  date: 2026-03-08\n  kiln: k\n  kind: glaze\n  load:\n' +
        '    - { lot: b, in: 2, first: 1, lost: 1, why: { craked: 1 } }\n',
      [7],
    ],
    ['a value left empty', 'products', 'mug:\n  name: Mug\n  price:\n', [4]],
    ['true for yes', 'recipes', recipe('for-food: true'), [4]],
    [
      'two faults in two records',
      'pieces',
      LOT.replace('12', 'x') + LOT.replace('260308', '260309').replace('mug', '""'),
      [5, 8],
    ],
  ])('%s', async (...[, kind, text, lines]) => {
    const file = newFile(kind);
    const whole = `${modelineFor(kind, file)}\n${text}`;
    expect(await linesByCheck(file, whole)).toEqual(lines);
    expect(await linesByEditor(file, whole)).toEqual(lines);
  });
});

function recipe(field: string): string {
  return (
    `r:\n  name: R\n  ${field}\n  kind: glaze\n` +
    '  versions: [{ from: 2026-01-01, base: [{ material: a, parts: 1 }] }]\n'
  );
}
