/**
 * Plans an ordinary sale at the end of the book without the book: it vouches that a check of the
 * whole would find nothing new, or hands over. It says nothing of what is wrong.
 */
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Book, Day, Sale } from '../book.ts';
import type { FileToCheck } from '../check/check.ts';
import { addFile, emptyDraft, finishBook } from '../check/draft.ts';
import { faultsInSale } from '../check/sale-rules.ts';
import { suspectsIn } from '../check/suspects.ts';
import type { Finding } from '../problem.ts';
import type { RawFile, RawMap } from '../read/raw.ts';
import { isBeforeStart } from '../reckon/opening.ts';
import { scan } from '../read/scan.ts';
import { appendToSound } from '../write/append-simple.ts';
import { newId } from '../write/target.ts';
import { endWithSale, knowsIdsOf, type KnownEnd } from './book-end.ts';
import { expandRecord } from './expand.ts';
import { NOTHING_HELD } from './held.ts';
import { heldAfter, type EndState } from './held-after.ts';
import { lexiconOf } from './lexicon.ts';
import { isPlainSale } from './plain-sale.ts';
import type { Edited, Plan } from './plan.ts';
import { dayOf, putRecord, type Added } from './put.ts';
import { withSaleTax } from './sale-tax.ts';

/** What is known of a studio's book without the book. */
export interface Known extends KnownEnd {
  readonly asOf: Day;
  /** All that is wrong as of the day. */
  readonly findings: readonly Finding[];
}

/** What is known of a studio without reading all of it. */
export interface Outline extends Known {
  readonly folder: string;
  /** The settings and all files of the kinds that a plain sale names something of. */
  readonly definitions: readonly FileToCheck[];
  /** The files that sales are in now, all of which were read without a fault. */
  readonly salesFiles: readonly string[];
  /** A number from 0 to below 1. */
  readonly random: () => number;
}

/** The kinds that have to be read. */
export const NAMED_BY_SALES = ['channels', 'products', 'materials', 'recipes'] as const;

/** A sale that is vouched for: the plan is what `planAdd` would make of it. */
export interface QuickPlan extends Plan {
  readonly added: readonly [Added];
  /** The record as it was typed, made whole but for its tax, which follows from it. */
  readonly fields: RawMap;
}

/** The plan for a sale that was typed; undefined where only a look at the whole book can tell. */
export function planQuickSale(outline: Outline, typed: RawMap): QuickPlan | undefined {
  const { definitions, asOf, end, random } = outline;
  if (!isQuiet(outline) || !definitions.every(isFaultless)) return undefined;
  const lexicon = lexiconOf(definitions);
  const { fields, faults } = expandRecord('sales', typed, { lexicon, day: asOf });
  if (faults.length > 0 || !isPlainSale(fields)) return undefined;
  const day = dayOf(fields, asOf);
  if (!isAtEnd(outline, day)) return undefined;
  const taken = new Set(end.ids);
  const id = newId({ kind: 'sales', day }, (each) => taken.has(each.toLowerCase()), random);
  return planWhole(outline, { id, day, fields });
}

interface NewSale {
  readonly id: string;
  readonly day: Day;
  readonly fields: RawMap;
}

/** Findings with lines of their own would have to be found again in the file that changes. */
export function isQuiet({ findings }: Known): boolean {
  return findings.every(({ severity, at }) => severity === 'warning' && !('line' in at));
}

function isFaultless(file: FileToCheck): boolean {
  return file.clean === true || suspectsIn(file).length === 0;
}

/** Whether a sale of the day is of the book's last day or of a later one. */
export function isAtEnd({ asOf, end }: Known, day: Day): boolean {
  return day <= asOf && knowsIdsOf(end, day);
}

function planWhole(outline: Outline, sale: NewSale): QuickPlan | undefined {
  const { folder, salesFiles: files, definitions } = outline;
  const edited = new Map<string, Edited>();
  const shelves = { folder, kind: 'sales', files, edited, append: appendSimply } as const;
  const before = bookOf(definitions);
  const added = putRecord(shelves, { ...sale, fields: withSaleTax(before, sale.fields) });
  if ('refused' in added) return undefined;
  const sides = sidesWith(before, added);
  const { id } = sale;
  const record = sides?.after.sales.get(id);
  const state = sides && record && stateAfter(outline, sides.after, record);
  if (!sides || !record || !state) return undefined;
  const { findings, held, end, asOf } = outline;
  return {
    changes: [...edited.values()].map(({ file, before, after }) => ({ file, before, after })),
    touched: [{ kind: 'sales', id }],
    problems: [],
    elsewhere: false,
    errors: 0,
    findings,
    sides: { ...sides, asOf },
    held: () => held,
    holds: () => state.held,
    end: () => endWithSale(end, record, state.uncounted),
    added: [added],
    fields: sale.fields,
  };
}

function appendSimply(
  text: string,
  id: string,
  recordText: string,
): { readonly text: string } | { readonly refused: string } {
  const put = appendToSound(text, id, recordText);
  return put === undefined ? { refused: 'its end is not plain' } : { text: put };
}

/** The definitions without and with the sale, where that is sound by itself. */
function sidesWith(
  before: Book,
  { file, text }: Added,
): { readonly before: Book; readonly after: Book } | undefined {
  const read = scan(text, { numberKeys: NUMBER_KEYS });
  const raw: RawFile | undefined = read && { file, kind: 'sales', ...read };
  if (!raw || suspectsIn(raw).length > 0) return undefined;
  return { before, after: { ...before, sales: bookOf([raw]).sales } };
}

function bookOf(files: readonly RawFile[]): Book {
  const draft = emptyDraft();
  for (const file of files) addFile(draft, file, { findings: [], sound: file.root });
  return finishBook(draft);
}

/**
 * What is held after a plain sale at the end of the book, where it breaks no rule; undefined where it
 * may break one.
 * @param book has the sale, and the definitions that it may name
 */
export function stateAfter(
  { held, end, asOf }: Known,
  book: Book,
  sale: Sale,
): EndState | undefined {
  const channel = book.channels.get(sale.channel);
  if (!channel || channel.kind === 'consignment') return undefined;
  if (isBeforeStart(book, sale.date)) return undefined;
  if (faultsInSale(book, sale, asOf).length > 0) return undefined;
  if (sale.date > end.day) return heldAfter({ held, uncounted: NOTHING_HELD }, book, sale);
  const isBound = ({ product = '' }: Sale['lines'][number]): boolean => end.bound.includes(product);
  if (sale.lines.some(isBound)) return undefined;
  return heldAfter({ held, uncounted: end.uncounted }, book, sale);
}
