/** Many problems of one rule in one file: the first ones, in their order, and a count; all are counted. */
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/review/check.ts';
import { MOST_TOLD } from '../../src/fold.ts';
import { run } from '../helpers/command-world.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const STUDIO = { 'studio.yaml': 'format: 1\nname: Hill Street\ncurrency: USD\n' };

/** Products of which each lacks its name, and some have an unknown field besides. */
function products(count: number): string {
  return Array.from({ length: count }, (_, i) => `mug-${i}:\n  price: 20.00\n`).join('');
}

async function checked(files: Record<string, string>, as = 'text'): Promise<string> {
  return (await run(check, tempStudio({ ...STUDIO, ...files }), { options: { as } })).out;
}

const heads = (out: string): string[] => out.match(/^products\.yaml:\d+/gm) ?? [];

describe('check', () => {
  it('tells all faults of a file that has up to a hundred of a rule', async () => {
    const out = await checked({ 'products.yaml': products(MOST_TOLD) });
    expect(heads(out)).toHaveLength(MOST_TOLD);
    expect(out).toMatch(/\n100 errors\.\n$/);
    expect(out).not.toContain('more error');
  });

  it('tells the first hundred and counts the others', async () => {
    const out = await checked({ 'products.yaml': products(1250) });
    const lines = heads(out);
    expect(lines).toHaveLength(MOST_TOLD + 1);
    expect(lines[0]).toBe('products.yaml:1');
    expect(lines[MOST_TOLD - 1]).toBe(`products.yaml:${2 * MOST_TOLD - 1}`);
    expect(out).toContain(
      '\nproducts.yaml:199:1: error: 1,150 more errors of the rule schema in this file; hint: correct those listed above',
    );
    expect(out).toMatch(/\n1250 errors\.\n$/);
  });

  it('tells those of each rule and each file by themselves', async () => {
    const out = await checked({
      'products.yaml': `${products(120)}bowl:\n  name: Bowl\n  price: 1\nbowl:\n  name: Bowl\n  price: 1\n`,
      'kilns.yaml': 'big:\n  nam: Big\n',
    });
    expect(out).toContain('20 more errors of the rule schema');
    expect(out).toMatch(/^products\.yaml:244:1: error: .*\[duplicate-id\]$/m);
    expect(out).toMatch(/^kilns\.yaml:2:3: error: .*\[schema\]$/m);
  });

  it('bounds what rules over the book find as well, by the order of the file', async () => {
    const lots = Array.from(
      { length: 300 },
      (_, i) => `p${300 - i}:\n  date: 2026-01-02\n  product: none-${i}\n  made: 1\n`,
    );
    const { out, status } = await run(
      check,
      tempStudio({ ...STUDIO, 'pieces/a.yaml': lots.join('') }),
      {},
    );
    expect(status).toBe(1);
    const lines = [
      ...out.matchAll(/^pieces\/a\.yaml:\d+:12: error: there is no .*\[unknown-reference\]$/gm),
    ];
    expect(lines).toHaveLength(MOST_TOLD);
    expect(out).toMatch(
      /:399:12: error: 200 more errors of the rule unknown-reference in this file; .*\[unknown-reference\]$/m,
    );
    expect(out).toMatch(/^pieces\/a\.yaml:3:/m);
    expect(out).toMatch(/\n300 errors\.\n$/);
  });

  it.each(['json', 'csv', 'markdown', 'sarif', 'annotations'])('does so as %s', async (as) => {
    const out = await checked({ 'products.yaml': products(5000) }, as);
    expect(out).toContain('more errors of the rule schema in this file');
    expect(out.split('this product has no name')).toHaveLength(MOST_TOLD + 1);
  });

  it('shows a line of millions of characters around the mark only', async () => {
    const folder = tempStudio({
      ...STUDIO,
      'products.yaml': `mug: {name: ${'x'.repeat(2_000_000)}, prize: 1}\n`,
    });
    const { out } = await run(check, folder, { isTerminal: true });
    expect(out).toMatch(/…x+, prize: 1}/);
    expect(out.length).toBeLessThan(1500);
  });
});
