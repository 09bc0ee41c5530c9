/** `saggar paper KIND …`: a paper that leaves the studio, as text or as a page, or the number of an invoice. */
import type { Book, RecordOf, Sale } from '../../book.ts';
import { NOUN } from '../../check/finding.ts';
import { printedLayout, printedLines } from '../../render/printable.ts';
import { isOpenToGit } from '../../read/addresses.ts';
import { locate } from '../../read/place.ts';
import { numberedSales } from '../../reckon/sales/invoice-numbers.ts';
import type { PaperScene } from '../../report/papers/letter.ts';
import type { LabelPaper, Paper } from '../../report/papers/paper.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { unknownId, unknownWord } from '../ids.ts';
import { PAPER_KINDS, PAPER_OF, isPaperKind, type PaperKind } from '../paper-command.ts';
import { inStudio, whileLocked } from '../records/locked.ts';
import { complainOf, type Scene } from '../records/change.ts';
import { leftOutText, refuse } from '../reports/show.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';
import type { MadePaper } from './made.ts';
import { numberAsked } from './number.ts';
import { paperScene } from './phrases.ts';
import { labelsAsked } from './labels.ts';
import { PAPERS } from './papers.ts';

type PaperOptions = OptionsOf<'paper'>;

/** Prints a paper; with `--number` gives an invoice or a credit note its number. */
export const paper: CommandOf<'paper'> = async (asked, world) => {
  const refusal = mixedUp(asked);
  if (refusal) return refuse(world, refusal);
  return asked.options.number
    ? whileLocked({ asked, world }, numberAsked)
    : inStudio({ asked, world }, printAsked);
};

/** Options that do not go with the paper, or with each other. */
function mixedUp({ argument = '', options }: AskedOf<'paper'>): Refusal | undefined {
  if (!isPaperKind(argument)) return unknownWord('paper', argument, PAPER_KINDS);
  const { number, series, dryRun, as, buyer, labelSheet, start } = options;
  const isBill = argument === 'invoice' || argument === 'credit';
  if (number && !isBill) return { refused: '--number is for invoice and credit only' };
  if (number && as === 'html')
    return {
      refused: '--number only writes the number; leave out --as html, and print it after that',
    };
  if (!number && as === 'json')
    return { refused: 'a paper is text or a page: use --as text or --as html' };
  const lone = { '--series': series, '--dry-run': dryRun };
  const [odd] = Object.entries(lone).find(([, value]) => value !== undefined) ?? [];
  if (!number && odd !== undefined) return { refused: `${odd} goes with --number` };
  if (buyer !== undefined && argument !== 'owed') return { refused: '--buyer goes with owed only' };
  const isPlaced = labelSheet !== undefined || start !== undefined;
  if (isPlaced && argument !== 'labels')
    return {
      refused: `${labelSheet === undefined ? '--start' : '--label-sheet'} goes with labels only`,
    };
  return undefined;
}

async function printAsked(scene: Scene<PaperOptions>): Promise<number> {
  const { asked, world, opened } = scene;
  const ground = await paperScene(opened);
  if (isRefusal(ground)) return refuse(world, ground);
  if ('faults' in ground) {
    complainOf(world, await locate(opened.folder, ground.faults));
    return EXIT.errors;
  }
  const made = madePaper(scene, ground);
  if (isRefusal(made)) return refuse(world, made);
  world.write(printedLayout(await inForm(made.paper, asked.options.as)));
  opened.save();
  sayNotes([...made.notes, ...(isOpenToGit(opened.folder) ? [OPEN_TO_GIT] : [])], world);
  if (opened.errors === 0) return EXIT.fine;
  world.complain(leftOutText(opened.errors));
  return EXIT.errors;
}

function madePaper(scene: Scene<PaperOptions>, ground: PaperScene): MadePaper | Refusal {
  const { asked, opened } = scene;
  const kind = asked.argument as PaperKind;
  const words = asked.words.slice(1);
  if (kind === 'labels') return labelsAsked(scene, ground, words);
  const [id, ...more] = words;
  const of = PAPER_OF[kind];
  const noun = NOUN[of];
  if (id === undefined) return { refused: `say which ${noun}, as in saggar paper ${kind} ID` };
  if (more.length > 0)
    return { refused: `one ${noun} at a time: ${id}, and not ${more.join(' ')} too` };
  const records: ReadonlyMap<string, RecordOf[typeof of]> = opened.book[of];
  const record = records.get(id) ?? (of === 'sales' ? saleNumbered(opened.book, id) : undefined);
  if (!record) return unknownId(noun, id, records.values());
  return PAPERS[kind](ground, record as never, asked.options);
}

const OPEN_TO_GIT =
  'git would take the addresses of your buyers in: add the line /buyers.yaml to .gitignore';

/** The sale of an invoice number. */
function saleNumbered(book: Book, number: string): Sale | undefined {
  return numberedSales(book).find((each) => each.number === number)?.sale;
}

async function inForm(made: Paper | LabelPaper, as: PaperOptions['as']): Promise<string> {
  if (as === 'html') {
    const { labelsPage, paperPage } = await import('../../render/papers/page.ts');
    return 'labels' in made ? labelsPage(made) : paperPage(made);
  }
  const { labelsText, paperText } = await import('../../render/papers/text.ts');
  return 'labels' in made ? labelsText(made) : paperText(made);
}

function sayNotes(notes: readonly string[], { quiet, complain }: World): void {
  if (quiet !== true && notes.length > 0)
    complain(printedLines(notes.map((note) => `Note: ${note}`)));
}
