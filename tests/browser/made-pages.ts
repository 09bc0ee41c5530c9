/** Every page that the program makes of the example studio, each made once. */
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { writeFileSync } from 'node:fs';
import { EXAMPLE, runCommand } from '../helpers/studio-commands.ts';

/** What a page is asked for by. */
export interface AskedPage {
  readonly name: string;
  readonly command: string;
  readonly argument?: string;
  readonly more?: readonly string[];
  readonly options?: Readonly<Record<string, string | boolean>>;
}

export const PAGES: readonly AskedPage[] = [
  { name: 'income', command: 'income', options: { year: '2025' } },
  { name: 'income-month', command: 'income', options: { by: 'month' } },
  { name: 'income-channel', command: 'income', options: { by: 'channel' } },
  { name: 'losses', command: 'losses' },
  { name: 'losses-chart', command: 'losses', options: { chart: true } },
  { name: 'losses-product', command: 'losses', options: { by: 'product' } },
  { name: 'firings', command: 'firings', options: { from: '2026-04-01' } },
  { name: 'firing', command: 'firings', argument: 'f250522pn' },
  { name: 'quarter', command: 'quarter' },
  { name: 'costs', command: 'costs' },
  { name: 'product', command: 'costs', argument: 'mug' },
  { name: 'materials', command: 'materials' },
  { name: 'material', command: 'materials', argument: 'silica' },
  { name: 'pieces', command: 'pieces' },
  { name: 'pieces-place', command: 'pieces', options: { by: 'place' } },
  { name: 'galleries', command: 'galleries' },
  { name: 'gallery', command: 'galleries', argument: 'gallery' },
  { name: 'fairs', command: 'fairs' },
  { name: 'kilns', command: 'kilns' },
  { name: 'kiln', command: 'kilns', argument: 'big-kiln' },
  { name: 'recipes', command: 'recipes' },
  { name: 'recipe', command: 'recipes', argument: 'linen' },
  { name: 'plan', command: 'plan' },
  { name: 'orders', command: 'orders' },
  { name: 'order', command: 'orders', argument: 'o260512hl' },
  { name: 'bring', command: 'fairs', options: { bring: true } },
  { name: 'weigh', command: 'weigh', argument: 'linen', more: ['5', 'kg'] },
  { name: 'trace', command: 'trace', argument: 'CB3711' },
  { name: 'fault', command: 'trace', options: { fault: 'crazed' } },
  { name: 'claims', command: 'claims' },
  { name: 'tests', command: 'tests' },
  { name: 'clays', command: 'clays' },
  { name: 'day', command: 'day' },
  { name: 'check', command: 'check' },
  { name: 'handover', command: 'export', options: { year: '2025' } },
];

/** The address of a page, which is written into the folder; an export's is that of its contents. */
export type PageMaker = (asked: AskedPage) => Promise<string>;

/** Makes each page of a studio when it is first asked for. */
export function pageMaker(folder: string, studio = EXAMPLE): PageMaker {
  const written = new Map<string, Promise<string>>();
  return (asked) => {
    const known = written.get(asked.name) ?? writePage(folder, asked, studio);
    written.set(asked.name, known);
    return known;
  };
}

async function writePage(folder: string, asked: AskedPage, studio: string): Promise<string> {
  const { name, command, argument, more, options = {} } = asked;
  if (command === 'export') {
    await runCommand(command, options, { argument: join(folder, name) });
    return pathToFileURL(join(folder, name, 'index.html')).href;
  }
  const words = {
    folder: studio,
    ...(argument === undefined ? {} : { argument }),
    ...(more ? { more } : {}),
  };
  const { out, complaints } = await runCommand(command, { ...options, as: 'html' }, words);
  if (out === '') throw new Error(`${name}: ${complaints}`);
  const file = join(folder, `${name}.html`);
  writeFileSync(file, out);
  return pathToFileURL(file).href;
}
