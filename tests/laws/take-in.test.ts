/** Lists that are spoiled in any way: nothing breaks, nothing is half written, no formula leaves as one. */
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planAdd } from '../../src/entry/add.ts';
import { lexiconOf } from '../../src/entry/lexicon.ts';
import { readListMap, type ListMap } from '../../src/entry/lists/map.ts';
import { readNotes, readTable } from '../../src/entry/lists/table.ts';
import { takingOf } from '../../src/entry/lists/taking.ts';
import { defuse } from '../../src/render/escape.ts';
import { parseText } from '../../src/read/yaml/parse.ts';
import { encodingOf, listText } from '../../src/read/list-file.ts';
import { appendRecord, appendRecords } from '../../src/write/append.ts';
import { removeRecords, removeRecord } from '../../src/write/splice.ts';
import { openFiles, type OpenedFiles } from '../../src/commands/studio/open.ts';
import { isRefusal } from '../../src/commands/world.ts';
import { LIST_STUDIO } from '../helpers/list-studio.ts';
import { holds } from '../helpers/law.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { run } from '../helpers/command-world.ts';

async function openedIn(folder: string): Promise<OpenedFiles> {
  const found: OpenedFiles[] = [];
  await run(async (asked: Parameters<typeof openFiles>[0], world) => {
    const opened = await openFiles(asked, world);
    if (!isRefusal(opened)) found.push(opened);
    return 0;
  }, folder);
  const [opened] = found;
  if (!opened) throw new Error('the studio could not be opened');
  return opened;
}

const LISTS = resolve(import.meta.dirname, '../lists');

function mapOf(name: string): ListMap {
  const file = `lists/${name}.yaml`;
  const text = readFileSync(join(LISTS, name, 'map.yaml'), 'utf8');
  const map = readListMap(parseText({ file, text }, { numberKeys: new Set() }).root, {
    name,
    file,
  });
  if (!('columns' in map)) throw new Error(JSON.stringify(map));
  return map;
}

const ALL = readdirSync(LISTS).map((name) => {
  const file = readdirSync(join(LISTS, name)).find((each) => each.startsWith('list.')) ?? '';
  const bytes = readFileSync(join(LISTS, name, file));
  return { map: mapOf(name), text: listText(bytes, encodingOf(bytes)) ?? '' };
});

/** What other programs, editors and hands do to a file. */
const SPOILS = [
  '"',
  '""',
  ',',
  ';',
  '\t',
  '\n',
  '\r\n',
  '\r',
  '-',
  '(',
  ')',
  '€',
  '0',
  '9',
  '.',
  '1e9',
  ' ',
  '\u0000',
  '\ufeff',
  '=1+1',
  '@SUM(A1)',
  '+cmd',
  '\u202e',
  'ß',
  '\ud800',
  '#',
  ': ',
  '- ',
  '{',
  '|',
];

const spoiled = fc
  .record({
    list: fc.constantFrom(...ALL),
    spoils: fc.array(
      fc.record({ at: fc.nat(2000), cut: fc.nat(12), put: fc.constantFrom(...SPOILS, '') }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(({ list, spoils }) => ({
    map: list.map,
    text: spoils.reduce((text, { at, cut, put }) => {
      const from = at % (text.length + 1);
      return text.slice(0, from) + put + text.slice(from + cut);
    }, list.text),
  }));

describe('a spoiled list', () => {
  it('is refused at a row, or becomes records that a sound book has whole', async () => {
    const folder = tempStudio(LIST_STUDIO);
    const opened = await openedIn(folder);
    const lexicon = lexiconOf(opened.reading.files);
    const { book, asOf } = opened;
    await holds(
      fc.asyncProperty(spoiled, async ({ map, text }) => {
        const { kind } = map;
        const table =
          map.form === 'notes'
            ? readNotes({ file: 'l', text }, asOf)
            : readTable({ file: 'l', text }, map);
        if (!('rows' in table) || !kind) return;
        const taking = takingOf({ map: { ...map, kind }, book, lexicon, day: asOf }, table);
        for (const { at } of taking.findings) expect(at).toMatchObject({ file: 'l' });
        if (taking.findings.length > 0) return;
        const records = taking.fresh.map(({ record }) => ({ id: undefined, fields: record }));
        const plan = await planAdd(opened, { kind, records, random: () => 0 });
        if ('refused' in plan || plan.errors > 0) return;
        expect(plan.after.book[kind].size).toBe(records.length);
        const keys = [...plan.after.book[kind].values()].map(({ from }) => from?.row);
        expect(new Set(keys).size).toBe(records.length);
      }),
      300,
      { long: 10_000 },
    );
  });

  it('lets no formula of a cell leave as one', () => {
    holds(
      fc.property(fc.constantFrom('=', '+', '-', '@', '\t=', '\r='), fc.string(), (start, rest) => {
        expect(defuse(`${start}SUM(A1)${rest}`)).not.toMatch(/^[=+@\t\r-]/);
      }),
      50,
    );
  });
});

const someText = fc.constantFrom(
  '',
  '# sales\n',
  'a1: { x: 1 }\n',
  'a1:\n  x: 1\n\na2:\n  x: 2\n',
  'a1:\n  x: 1\na2:\n  x: 2\n',
  '{ a1: { x: 1 } }\n',
  'a1:\r\n  x: 1\r\n\r\n# end\r\n',
);

describe('many records at once', () => {
  const someRecords = fc.uniqueArray(fc.stringMatching(/^[b-z][a-z0-9]{3}$/), { maxLength: 9 });

  it('stand as if put in one after the other, and are taken out as if one by one', () => {
    holds(
      fc.property(someText, someRecords, (text, ids) => {
        const records = ids.map((id) => [id, { x: '1', lines: [{ count: '2' }] }] as const);
        const together = appendRecords(text, records);
        const inTurn = records.reduce<string>((so, [id, record]) => {
          const put = appendRecord(so, id, record);
          return 'text' in put ? put.text : so;
        }, text);
        expect(together).toEqual({ text: inTurn });
        const gone = ids.filter((_, at) => at % 3 !== 1);
        if (gone.length === 0) return;
        const out = gone.reduce<string>((so, id) => {
          const cut = removeRecord(so, id);
          return 'text' in cut ? cut.text : so;
        }, inTurn);
        expect(removeRecords(inTurn, gone)).toEqual({ text: out });
      }),
      100,
    );
  });
});
