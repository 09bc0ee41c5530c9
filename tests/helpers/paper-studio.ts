/** A studio that sells to a shop, for the tests of papers, and what a command line says in it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadCommand } from '../../src/commands/load.ts';
import { run, type Said } from './command-world.ts';
import { small } from './small-studio.ts';

/** The file of the sales to the shop. */
export const SHOP_SALES = 'sales/shop.yaml';
/** Settings and sales of it, by their paths. */
export const SHOP = {
  'studio.yaml': `format: 1
name: Small studio
currency: USD
invoices: { series: A }
papers: { letterhead: [3 Quay Steps, Pebblestoke], terms: Pay within 30 days. }
`,
  [SHOP_SALES]: `s260410aa:
  date: 2026-04-10
  channel: shop
  buyer: Puddle Coffee
  paid: no
  lines:
    - { product: mug, lot: p260301ab, count: 3, price: 20.00 }

s260411bb:
  date: 2026-04-11
  channel: shop
  buyer: Puddle Coffee
  paid: no
  lines:
    - { product: mug, count: 2, price: 20.00 }
`,
};

/** What a command line says. */
export async function said(
  folder: string,
  [name = '', ...words]: readonly string[],
  options: Readonly<Record<string, unknown>> = {},
): Promise<Said> {
  return run(await loadCommand(name), folder, { words, options });
}

/** Gives a sale the next number. */
export function numbered(folder: string, id: string, more: object = {}): Promise<Said> {
  return said(folder, ['paper', 'invoice', id], { number: true, ...more });
}

/** The studio in a folder of its own, with more files or others in their place. */
export function shop(more: Readonly<Record<string, string>> = {}): string {
  return small({ ...SHOP, ...more });
}

/** The numbers that are in the sales to the shop, in their order. */
export function numbersIn(folder: string): string[] {
  return readFileSync(join(folder, SHOP_SALES), 'utf8').match(/(?<=number: )\S+/g) ?? [];
}
