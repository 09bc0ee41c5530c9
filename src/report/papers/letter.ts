/** What all papers share: the letterhead, whom they are for, and how ware is named on them. */
import type { Book, Day, Grade, NamedBook } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import type { Addressee, Paper, PaperTable } from './paper.ts';
import type { PaperWording } from './phrases.ts';

/** What a paper is made from. */
export interface PaperScene {
  readonly book: Book;
  readonly asOf: Day;
  readonly wording: PaperWording;
  /** The lines of an address that goes with a buyer's name, where the studio has one. */
  readonly addressOf: (buyer: string) => readonly string[];
}

/** What is at the head of every paper. */
export function letterOf({
  book,
  wording,
}: PaperScene): Pick<Paper, 'language' | 'studio' | 'letterhead'> {
  const { name, papers } = book.studio;
  return { language: wording.say('language'), studio: name, letterhead: papers?.letterhead ?? [] };
}

const OPEN_LINES = 3;

/** Whom it is for; lines are left open where there is no address. */
export function addressee({ wording, addressOf }: PaperScene, name: string): Addressee {
  const address = addressOf(name);
  const lines = [...(name === '' ? [] : [name]), ...address];
  return { head: wording.say('to'), lines, open: address.length > 0 ? 0 : OPEN_LINES };
}

/** Ware of one sort, or something else that is sold. */
interface BilledWare {
  readonly product?: string;
  readonly class?: string;
  readonly for?: string;
  readonly glaze?: string;
  readonly grade?: Grade;
}

/** Its name, its glaze, and that it is a second. */
export function wareWords(scene: PaperScene, ware: BilledWare, day: Day): string {
  const { products, classes } = scene.book;
  const { product, class: taught } = ware;
  const defined = products.get(product ?? '') ?? classes.get(taught ?? '');
  const name = inForce(defined, day)?.name ?? ware.for ?? product ?? taught;
  return saidTexts(name, wareDetails(scene, ware)).join(', ');
}

/** The glaze by its name, and that it is a second. */
export function wareDetails(
  { book, wording }: PaperScene,
  { glaze, grade }: Pick<BilledWare, 'glaze' | 'grade'>,
): string {
  const colour = glaze === undefined ? undefined : (book.recipes.get(glaze)?.name ?? glaze);
  return saidTexts(colour, grade === 'second' ? wording.say('second') : undefined).join(', ');
}

/** What a pot can be followed by, the same on its label, on a list and on an invoice: the lot, and its mark. */
export function lotNumber({ pieces }: Pick<NamedBook, 'pieces'>, lot: string | undefined): string {
  if (lot === undefined) return '';
  const mark = pieces.get(lot)?.mark;
  return mark === undefined ? lot : `${lot} (${mark})`;
}

/** Those that are there. */
export function saidTexts(...texts: readonly (string | undefined)[]): string[] {
  return texts.filter((text) => text !== undefined && text !== '') as string[];
}

/** The table without columns that have nothing in them. */
export function filledTable({ caption, columns, rows }: PaperTable): PaperTable {
  const isFilled = (_: unknown, at: number): boolean => rows.some((row) => row[at] !== '');
  return {
    caption,
    columns: columns.filter(isFilled),
    rows: rows.map((row) => row.filter(isFilled)),
  };
}
