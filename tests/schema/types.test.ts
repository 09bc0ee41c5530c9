/** The schemas and the types of the book are twins: the same fields, the same ones required, the same words. */
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { FIELDS } from '../../schema/generated/fields.js';
import type {
  FieldSpec,
  RecordSpec,
  ScalarSpec,
  ScalarType,
} from '../../schema/generated/fields.js';
import { KINDS } from '../../src/book.ts';
import { isUnit } from '../../src/number/unit.ts';

const SOURCE = new URL('../../src/book.ts', import.meta.url).pathname;
const program = ts.createProgram([SOURCE], {
  strict: true,
  exactOptionalPropertyTypes: true,
  allowImportingTsExtensions: true,
  noEmit: true,
  target: ts.ScriptTarget.ES2023,
  module: ts.ModuleKind.ESNext,
  moduleResolution: ts.ModuleResolutionKind.Bundler,
  types: [],
});
const checker = program.getTypeChecker();

function exported(name: string): ts.Type {
  const source = program.getSourceFile(SOURCE)!;
  const symbols = checker.getExportsOfModule(checker.getSymbolAtLocation(source)!);
  return checker.getDeclaredTypeOfSymbol(symbols.find((symbol) => symbol.name === name)!);
}

function typeOf(symbol: ts.Symbol): ts.Type {
  return checker.getNonNullableType(checker.getTypeOfSymbol(symbol));
}

type Shape = Readonly<Record<string, unknown>>;

/** What the types say of a value, in the same form as `told`. */
function typed(type: ts.Type, spec: FieldSpec): unknown {
  if (spec.type === 'list')
    return [typed(checker.getTypeArguments(type as ts.TypeReference)[0]!, spec.of)];
  if (spec.type === 'map') return typedMap(type, spec);
  if (spec.type === 'record') return typedRecord(type, spec);
  if (spec.type === 'either') {
    const members = (type as ts.UnionType).types;
    const record = members.find((member) => member.getProperty('unit') === undefined)!;
    const other = members.find((member) => member !== record)!;
    return { record: typed(record, spec.record), other: typed(other, spec.other) };
  }
  return typedScalar(type);
}

function typedMap(type: ts.Type, spec: FieldSpec & { type: 'map' }): unknown {
  const index = checker.getIndexInfosOfType(type)[0];
  if (index !== undefined) return { any: typed(index.type, spec.of) };
  const keys = checker.getPropertiesOfType(type);
  return { keys: keys.map(({ name }) => name).sort(), of: typed(typeOf(keys[0]!), spec.of) };
}

const KEPT_BY_THE_PROGRAM = new Set(['id', 'file']);

function typedRecord(type: ts.Type, spec: RecordSpec): Shape {
  const specs = new Map(
    Object.entries(spec.fields).map(([key, field]) => [camelCase(key), field] as const),
  );
  const fields = checker
    .getPropertiesOfType(type)
    .filter(({ name }) => !KEPT_BY_THE_PROGRAM.has(name) || specs.has(name))
    .map((symbol) => {
      const optional = (symbol.flags & ts.SymbolFlags.Optional) !== 0;
      const field = specs.get(symbol.name);
      return [
        `${symbol.name}${optional ? '?' : ''}`,
        field ? typed(typeOf(symbol), field) : 'in no schema',
      ];
    });
  return Object.fromEntries(fields) as Record<string, unknown>;
}

function typedScalar(type: ts.Type): unknown {
  const members = type.isUnion() ? type.types : [type];
  if (members.every((member) => member.isStringLiteral()))
    return wordsOrUnit(members.map(({ value }) => value));
  const text = checker.typeToString(type);
  return type.aliasSymbol?.name ?? text;
}

// A field may take a few of the units only; its type takes them all.
function wordsOrUnit(words: readonly string[]): unknown {
  return words.every(isUnit) ? 'Unit' : [...words].sort();
}

const TYPES: Readonly<Record<ScalarType, string>> = {
  text: 'string',
  day: 'string',
  paid: 'string',
  time: 'string',
  measured: 'string',
  cone: 'string',
  amount: 'Decimal',
  rate: 'Decimal',
  number: 'Decimal',
  percent: 'Decimal',
  power: 'Decimal',
  length: 'Decimal',
  count: 'number',
  quantity: 'Quantity',
  discount: 'Discount',
  'heat-content': 'HeatContent',
};

function isScalar(spec: FieldSpec): spec is ScalarSpec {
  return spec.type in TYPES;
}

/** Words that the types leave open. */
const OPEN_WORDS = new Set(['Substance', 'Format']);

/** What the schemas say of a value. */
function told(spec: FieldSpec): unknown {
  if (isScalar(spec)) return TYPES[spec.type];
  switch (spec.type) {
    case 'list':
      return [told(spec.of)];
    case 'map':
      return spec.keys
        ? { keys: [...spec.keys].sort(), of: told(spec.of) }
        : { any: told(spec.of) };
    case 'record':
      return toldRecord(spec);
    case 'either':
      return { record: told(spec.record), other: told(spec.other) };
    case 'word':
      return OPEN_WORDS.has(spec.title) ? 'string' : wordsOrUnit(spec.words);
    case 'reference':
      return 'string';
  }
}

function toldRecord(spec: RecordSpec): Shape {
  return Object.fromEntries(
    Object.entries(spec.fields).map(([key, field]) => [
      `${camelCase(key)}${spec.required.includes(key) ? '' : '?'}`,
      told(field),
    ]),
  );
}

function camelCase(key: string): string {
  return key.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
}

describe('the fields of the schemas are those of the types', () => {
  const records = exported('RecordOf');

  test.each(KINDS)('%s', (kind) => {
    const type = typeOf(records.getProperty(kind)!);
    expect(typedRecord(type, FIELDS[kind])).toEqual(toldRecord(FIELDS[kind]));
  });

  test('studio', () => {
    expect(typedRecord(exported('Studio'), FIELDS.studio)).toEqual(toldRecord(FIELDS.studio));
  });
});
