import fc from 'fast-check';
import { CORE_SCHEMA, load } from 'js-yaml';
import { describe, expect, test } from 'vitest';
import { isMap, isScalar, parseDocument } from 'yaml';
import { coreValue, isCoreValue, isPlainNumber } from '../../src/read/yaml/core.ts';
import { holds } from '../helpers/law.ts';

// Examples of YAML 1.2.2, section 10.3.2, and what looks like them.
describe('the core schema', () => {
  test.each([
    ['', null],
    ['null', null],
    ['NULL', null],
    ['~', null],
    ['nULL', 'nULL'],
    ['none', 'none'],
    ['true', true],
    ['False', false],
    ['TRUE', true],
    ['tRUE', 'tRUE'],
    ['yes', 'yes'],
    ['no', 'no'],
    ['on', 'on'],
    ['0', 0],
    ['04', 4],
    ['-19', -19],
    ['+7', 7],
    ['0o7', 7],
    ['0x3A', 58],
    ['0b1', '0b1'],
    ['-0x1', '-0x1'],
    ['0o8', '0o8'],
    ['0.', 0],
    ['-0.0', -0],
    ['.5', 0.5],
    ['+12e03', 12000],
    ['12E5', 1_200_000],
    ['-2E+05', -200_000],
    ['1.10', 1.1],
    ['.', '.'],
    ['e3', 'e3'],
    ['1e', '1e'],
    ['1_000', '1_000'],
    ['1,000', '1,000'],
    ['--1', '--1'],
    ['1-', '1-'],
    ['.inf', Infinity],
    ['-.Inf', -Infinity],
    ['+.INF', Infinity],
    ['.iNF', '.iNF'],
    ['.nan', NaN],
    ['.NaN', NaN],
    ['-.nan', '-.nan'],
    ['2026-03-08', '2026-03-08'],
    ['06:30', '06:30'],
    ['12.5 kg', '12.5 kg'],
    ['5½', '5½'],
    ['40%', '40%'],
    ['٣', '٣'],
  ])('%j is %j', (text, value) => {
    expect(coreValue(text)).toBe(value);
    expect(isCoreValue(text)).toBe(typeof value !== 'string');
  });

  test('a plain number is one in decimal digits', () => {
    const texts = ['4', '-4.5', '1e3', '.5', '0x1f', '0o7', '.inf', '.nan', 'true', ''];
    expect(texts.filter(isPlainNumber)).toEqual(['4', '-4.5', '1e3', '.5']);
  });

  const scalars = fc.oneof(
    fc.string({
      unit: fc.constantFrom(
        '0',
        '1',
        '7',
        'x',
        'o',
        'a',
        'e',
        'E',
        '.',
        '-',
        '+',
        '_',
        'i',
        'n',
        'f',
      ),
      minLength: 1,
      maxLength: 8,
    }),
    fc.double().map(String),
    fc.integer().map((number) => String(number)),
  );
  // What YAML would not take for one unquoted scalar is another matter.
  const isPlain = (text: string): boolean => !/^[-.?]?$|^---$|^-$|^\.\.\.$/.test(text);

  test('is that of the yaml package', () => {
    const same = fc.property(scalars.filter(isPlain), (text) => {
      const { contents } = parseDocument(`a: ${text}\n`, { schema: 'core' });
      const value = isMap(contents) ? contents.items[0]?.value : undefined;
      expect(coreValue(text)).toEqual(isScalar(value) ? value.value : value);
    });
    holds(same, 5000);
  });

  // js-yaml reads -0 as 0 and -00 as -0: the sign of nothing is left out on both sides.
  const positive = (value: unknown): unknown => (value === 0 ? 0 : value);

  // js-yaml 4 also reads 0b1 and 1_000 as numbers, as YAML 1.1 did, and +.5 as none.
  test('is that of js-yaml but for its remains of YAML 1.1', () => {
    const modern = scalars.filter(
      (text) => isPlain(text) && !/_|^[-+]?0[box]|^[-+]\.|[eE]/.test(text),
    );
    const same = fc.property(modern, (text) => {
      const { a } = load(`a: ${text}\n`, { schema: CORE_SCHEMA }) as { a: unknown };
      expect(positive(a)).toEqual(positive(coreValue(text)));
    });
    holds(same, 5000);
  });
});
