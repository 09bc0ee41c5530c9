/** Records changed at random: our check and the second validator still agree, and the fast way lets nothing through. */
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseDocument } from 'yaml';
import { FIELDS } from '../../schema/generated/fields.js';
import { textValidators } from '../../schema/generated/text.js';
import { KINDS, type Kind } from '../../src/book.ts';
import { checkFile } from '../../src/check/schema.ts';
import { typeRecord } from '../../src/check/typed.ts';
import type { Finding } from '../../src/problem.ts';
import type { RawFile, RawMap } from '../../src/read/raw.ts';
import { holds } from '../helpers/law.ts';
import { coreView, rawFile } from '../helpers/file-views.ts';
import { DOCUMENTS, fileOf } from './documents.ts';
import { secondAccepts, secondAcceptsValue } from './second-validator.ts';
import { cases } from '../helpers/tier.ts';

/** What stands between a key and the end of its value, as in the file. */
const WORDS = [
  ...[
    '04',
    '4',
    '"04"',
    '12E5',
    '1e3',
    '0x1F',
    '0o17',
    '.inf',
    '-.INF',
    '.nan',
    '.5',
    '5.',
    '+5',
    '1_000',
  ],
  ...[
    '0',
    '-0',
    '00',
    '012',
    '3.0',
    '"3.0"',
    '-1',
    '1',
    '"1"',
    '2.50',
    '999999999999',
    '1000000000',
  ],
  ...['1000000000000', '999999999999.99', '0.000000000000000000000001', '1.0000001', '19.9', '20'],
  ...['true', 'yes', 'no', 'False', 'null', '~', '""', '" "', 'Null', "'no'", 'x', 'm1', 'a b'],
  ...['12 kg', '12kg', '0 kg', '0.0 g', '4 x 25 lb', '0 x 5 g', '5 L', '7 kWh', '3 ft3', '1 each'],
  ...[
    '8%',
    '100%',
    '100.5%',
    '8 %',
    '0.5%',
    '2026-02-28',
    '2026-02-29',
    '2024-02-29',
    '1899-12-31',
  ],
  ...['06:30', '24:00', '16:00-21:00', '"01-31"', '5½', '"14½"', '03 1/2', 'USD', '9 kW', '10 C'],
  ...['84 km', '10.8 kWh/m3-gas', '0 kWh/ft3', 'first', 'glaze', 'bisque', 'kg', 'cost', 'waste'],
  ...['[]', '{}', '[ a ]', '[ 1 ]', '{ a: 1 }', '{ ran: 1 }', '{ material: a, quantity: 1 }'],
];
const KEYS = [
  'price',
  'other',
  'lot',
  'first',
  'material',
  'ran',
  'SiO2',
  'bisque',
  'nope',
  'class',
];

const anyKind = fc.constantFrom<Kind | 'studio'>(...KINDS, 'studio');
const word = fc.constantFrom(...WORDS);

/** A field set to some word, or dropped; or a word put in a sound value's place. */
const change = (kind: Kind | 'studio'): fc.Arbitrary<string> => {
  const { good } = DOCUMENTS[kind];
  const key = fc.constantFrom(...Object.keys(FIELDS[kind].fields), ...KEYS);
  const sound = fc.constantFrom(...good);
  return fc.oneof(
    { weight: 3, arbitrary: fc.tuple(key, word).map(([name, value]) => `${name}: ${value}`) },
    { weight: 1, arbitrary: key.map((name) => `-${name}`) },
    { weight: 3, arbitrary: sound },
    { weight: 6, arbitrary: fc.tuple(sound, fc.nat(), word).map(replacePart) },
    { weight: 2, arbitrary: fc.tuple(sound, fc.nat(), fc.constantFrom(...KEYS)).map(replaceKey) },
  );
};

const PART = /(?<=: |\[ )[^\s[\]{},"][^[\]{},"]*?(?= ?[\]},]|$)/g;
const KEY = /[\w-]+(?=: )/g;

function replacePart([text, which, by]: [string, number, string]): string {
  return replaced(text, PART, { which, by });
}

function replaceKey([text, which, by]: [string, number, string]): string {
  return replaced(text, KEY, { which, by });
}

function replaced(
  text: string,
  part: RegExp,
  { which, by }: { which: number; by: string },
): string {
  const parts = [...text.matchAll(part)];
  const found = parts[which % Math.max(1, parts.length)];
  if (found === undefined) return text;
  return text.slice(0, found.index) + by + text.slice(found.index + found[0].length);
}

/** A file with one record, from a sound one with up to three changes. */
const documents = anyKind.chain((kind) =>
  fc
    .array(change(kind), { minLength: 1, maxLength: 3 })
    .map((changes) => ({ kind, text: fileOf(kind, DOCUMENTS[kind].base, ...changes) }))
    .filter(({ text }) => parseDocument(text).errors.length === 0),
);

const refusesAsOthers = ({ rule }: Finding): boolean =>
  rule === 'schema' || rule === 'needs-quotes';

test('what we refuse by the schema the second validator refuses, and the other way round', () => {
  const seen = { sound: 0, unsound: 0 };
  holds(
    fc.property(documents, ({ kind, text }) => {
      const { findings } = checkFile(rawFile(kind, text), () => coreView(text));
      const accepted = secondAccepts(kind, text);
      if (findings.some(refusesAsOthers)) expect(accepted).toBe(false);
      if (!accepted) expect(findings).not.toEqual([]);
      seen[accepted ? 'sound' : 'unsound'] += 1;
    }),
    600,
  );
  expect(Math.min(seen.sound, seen.unsound)).toBeGreaterThan(cases(60));
});

function recordsOf({ kind, root }: RawFile): unknown[] {
  return kind === 'studio' ? [root] : Object.values(root);
}

test('what the fast way accepts in a file with nothing odd, the second validator accepts', () => {
  let accepted = 0;
  holds(
    fc.property(documents, ({ kind, text }) => {
      const file = rawFile(kind, text);
      if (file.odd || !recordsOf(file).every(textValidators[kind])) return;
      accepted += 1;
      expect(secondAccepts(kind, text)).toBe(true);
      expect(checkFile({ ...file, odd: true }, () => coreView(text)).findings).toEqual([]);
    }),
    600,
  );
  expect(accepted).toBeGreaterThan(cases(60));
});

test('every record that is found sound can be typed', () => {
  let typed = 0;
  holds(
    fc.property(documents, ({ kind, text }) => {
      if (kind === 'studio') return;
      const { sound } = checkFile(rawFile(kind, text), () => coreView(text));
      for (const [id, record] of Object.entries(sound)) {
        expect(typeRecord(kind, record as RawMap, { id, file: 'x.yaml' }).id).toBe(id);
        typed += 1;
      }
    }),
    600,
  );
  expect(typed).toBeGreaterThan(cases(60));
});

test('without a core reader the texts are checked alone', () => {
  holds(
    fc.property(documents, ({ kind, text }) => {
      const file = { ...rawFile(kind, text), odd: true };
      const { findings } = checkFile(file, () => undefined);
      expect(findings.length === 0).toBe(secondAcceptsValue(kind, file.root));
    }),
    400,
  );
});
