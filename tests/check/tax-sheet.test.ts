import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { FAILSAFE_SCHEMA, load } from 'js-yaml';
import { describe, expect, it } from 'vitest';
import { TAX_SHEETS } from '../../schema/generated/tax-sheets.js';
import { typeTaxSheet } from '../../src/check/sheets/tax-sheet.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { SHEET_FAMILIES } from '../../src/read/tax-sheet.ts';
import { CATEGORIES } from '../../src/reckon/tax/tax-sheet.ts';
import { builtIn } from '../helpers/quarter.ts';

const FOLDER = resolve(import.meta.dirname, '../../schema/tax-sheets');
const SHEETS = Object.keys(TAX_SHEETS);
const OF_YEARS = SHEETS.filter((id) => id !== 'plain');
const spent = readFileSync(resolve(FOLDER, '../spent.json'), 'utf8');

function problemsOf(text: string): string[] {
  const raw = (load(text, { schema: FAILSAFE_SCHEMA }) ?? {}) as RawMap;
  const sheet = typeTaxSheet(raw, { id: 'own', file: 'own.yaml', categories: ['kiln-insurance'] });
  if ('lines' in sheet) return [];
  return sheet.map(({ at, message, hint }) => {
    const path = 'path' in at ? at.path.join('/') : '';
    return `${path}: ${message} (${hint})`;
  });
}

/** Every text of a mapping by its path. */
function textsIn(value: Raw, path = ''): Map<string, Raw> {
  if (typeof value !== 'object') return new Map([[path.slice(1), value]]);
  return new Map(
    Object.entries(value).flatMap(([key, field]) => [...textsIn(field, `${path}/${key}`)]),
  );
}

const SOUND = `title: Own
lines:
  in: { number: "1", title: In, takes: [sales], takes-off: discounts }
  out: { number: "2", title: Out, takes: [car, kiln-insurance] }
  net-profit: { number: "3", title: Left, adds: [in], less: [out] }
`;

describe('the sheets of the program', () => {
  const schema: object = JSON.parse(readFileSync(join(FOLDER, 'tax-sheet.json'), 'utf8')) as object;
  const isSheet = new Ajv2020({ allErrors: true, allowUnionTypes: true }).compile(schema);

  function fileOf(id: string): RawMap {
    const text = readFileSync(join(FOLDER, `${id}.yaml`), 'utf8');
    return load(text, { schema: FAILSAFE_SCHEMA }) as RawMap;
  }

  it('are all the files of the folder: of a form with years one for each, upon what they share', () => {
    const files = readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'));
    const wanted = [...SHEETS, ...SHEET_FAMILIES].map((id) => `${id}.yaml`);
    expect(files.sort()).toEqual(wanted.sort());
  });

  it.each(SHEETS)('%s keeps to the schema of sheets', (id) => {
    isSheet(TAX_SHEETS[id]);
    expect(isSheet.errors ?? []).toEqual([]);
  });

  it.each(OF_YEARS)('%s has what its own file says, and else what all years share', (id) => {
    const sheet = TAX_SHEETS[id];
    expect(sheet).toMatchObject(fileOf(id));
    expect(sheet?.['years']).toEqual([id.slice(-4)]);
    const [own, shared] = [textsIn(fileOf(id)), textsIn(fileOf(id.slice(0, -5)))];
    const rest = [...shared].filter(([path]) => ![...own.keys()].some((each) => path === each));
    expect(textsIn(sheet ?? {})).toEqual(new Map([...own, ...rest, ['years/0', id.slice(-4)]]));
  });

  it('have their lines in the order of their numbers, which are not the same each year', () => {
    const others = (id: string): string[] =>
      builtIn(id)
        .lines.filter(({ number }) => number.startsWith('27'))
        .map(({ key, number }) => `${number} ${key}`);
    expect(others('us-schedule-c-2024')).toEqual(['27a other-expenses', '27b energy-buildings']);
    expect(others('us-schedule-c-2025')).toEqual(['27a energy-buildings', '27b other-expenses']);
  });

  it.each(SHEETS)('%s has a line for every spending category, and says where it is from', (id) => {
    const sheet = builtIn(id);
    const taken = sheet.lines.flatMap(({ takes, takesOff }) => [...takes, ...takesOff]);
    expect(CATEGORIES.filter((each) => !taken.includes(each))).toEqual([]);
    expect(sheet.source.length).toBeGreaterThan(20);
  });

  it('know the categories of the file format', () => {
    const { $defs } = JSON.parse(spent) as {
      $defs: { record: { properties: { for: { 'x-words': string[] } } } };
    };
    // Sales tax that is paid over is no expense, so no line takes it.
    const words = $defs.record.properties.for['x-words'].filter((word) => word !== 'sales-tax');
    expect(CATEGORIES).toEqual(words);
  });

  it('the schema refuses what is no sheet', () => {
    const wrong = [
      'title: x',
      'lines: {}',
      SOUND.replace('number: "1", ', ''),
      `${SOUND}yeers: 1\n`,
    ];
    const refused = wrong.map((text) => !isSheet(load(text, { schema: FAILSAFE_SCHEMA })));
    expect(refused).toEqual([true, true, true, true]);
    expect(isSheet(load(SOUND, { schema: FAILSAFE_SCHEMA }))).toBe(true);
  });
});

describe('a sheet of one’s own', () => {
  it('is taken where it is sound', () => {
    expect(problemsOf(SOUND)).toEqual([]);
  });

  it('is sound as the page beside the sheets shows one', () => {
    const readme = readFileSync(resolve(FOLDER, 'README.md'), 'utf8');
    const [, shown = ''] = /A sheet of your own[^]*?```yaml\n([^]*?)```/.exec(readme) ?? [];
    expect(shown).toContain('net-profit');
    expect(problemsOf(shown)).toEqual([]);
  });

  it.each([
    ['nothing', '', 'lines: lines is missing'],
    ['no number', SOUND.replace('number: "2", ', ''), 'lines/out/number: number is missing'],
    ['a field mistyped', SOUND.replace('takes-off', 'take-off'), 'did you mean takes-off?'],
    [
      'an amount mistyped',
      SOUND.replace('[sales]', '[sale]'),
      'there is no amount "sale" (did you mean sales?)',
    ],
    ['an amount twice', SOUND.replace('[car,', '[sales,'), '"sales" is taken a second time'],
    [
      'a line that is not there',
      SOUND.replace('adds: [in]', 'adds: [inn]'),
      'there is no line "inn" (did you mean in?)',
    ],
    [
      'a circle',
      SOUND.replace('title: In,', 'title: In, adds: [net-profit],'),
      'this line adds up itself',
    ],
    ['no profit', SOUND.replace('net-profit:', 'profit:'), 'there is no line net-profit'],
    [
      'a line that is a text',
      SOUND.replace(/in: \{.*\}/, 'in: sales'),
      'lines/in: fields with values belong here (the fields are number, title, takes',
    ],
    [
      'a rate that is none',
      `${SOUND}mileage: { unit: mi, rates: [{ rate: much }] }\n`,
      'mileage/rates/0/rate: rate is missing or is not a number (write it as 0.45 or 12.4%)',
    ],
    ['no rate', `${SOUND}mileage: { unit: mi }\n`, 'rates is missing'],
    ['another unit', `${SOUND}mileage: { unit: yd, rates: [{ rate: 1 }] }\n`, 'unit is "yd"'],
    [
      'a day that is none',
      `${SOUND}year-starts: 13-01\n`,
      'year-starts: year-starts is not a month and day (write it as "04-05", in quotes)',
    ],
    [
      'a period without a day',
      `${SOUND}updates: { periods: [{ to: "03-31" }] }\n`,
      'updates/periods/0/due: due is not a month and day (write it as "04-05", in quotes)',
    ],
  ])('is refused for %s', (_, text, words) => {
    expect(problemsOf(text).join('\n')).toContain(words);
  });
});
