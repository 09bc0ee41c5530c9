/** Table → text in the format that was asked for; each format is loaded only when it is needed. */
import type { Table } from '../report/table.ts';
import { printedLayout, type Printable } from './printable.ts';
import type { TextOptions } from './terminal/text.ts';

export type Format = 'text' | 'json' | 'csv' | 'markdown' | 'html';

export interface RenderOptions extends TextOptions {
  readonly as: Format;
}

type Renderer = (table: Table, options: RenderOptions) => Promise<string>;

const RENDERERS: Readonly<Record<Format, Renderer>> = {
  text: async (table, options) => (await import('./terminal/text.ts')).renderText(table, options),
  json: async (table) => (await import('./json.ts')).renderJson(table),
  csv: async (table) => (await import('./csv.ts')).renderCsv(table),
  markdown: async (table) => (await import('./markdown.ts')).renderMarkdown(table),
  html: async (table) => (await import('./html/page.ts')).renderTablePage(table),
};

const USUAL_WIDTH = 80;

/** A width that can be laid out in: the one given, or 80 where it is unknown. */
export function usableWidth(width: number): number {
  return Number.isSafeInteger(width) && width > 0 ? width : USUAL_WIDTH;
}

const USUAL_ROWS = 24;

/** Lines of a terminal: those it says, or 24 where it does not say how many it has. */
export function usableHeight(rows: number): number {
  return rows > 0 ? rows : USUAL_ROWS;
}

/** The table in the format asked for, with a line end; the same table gives the same bytes. */
export async function render(table: Table, options: RenderOptions): Promise<Printable> {
  const width = usableWidth(options.width);
  const document = await RENDERERS[options.as](table, { ...options, width });
  return printedLayout(document, { colour: options.colour && options.as === 'text' });
}
