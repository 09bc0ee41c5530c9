/** Which record each paper is of, and when it can't be made. */
import type { Channel, Consigned, Order, Product, RecordOf, Sale } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { NO_MONEY } from '../../number/money.ts';
import { flow } from '../../reckon/flow.ts';
import { owedByOthers, type Debt } from '../../reckon/sales/debts.ts';
import { paidOn } from '../../reckon/sales/paid.ts';
import { saleMoney } from '../../reckon/sales/sale-money.ts';
import { creditPaper, invoicePaper, receiptPaper } from '../../report/papers/bills.ts';
import { careStatements } from '../../report/claims/claim-words.ts';
import { carePaper } from '../../report/papers/care-words.ts';
import { owedPaper, sentPaper } from '../../report/papers/gallery-papers.ts';
import type { PaperScene } from '../../report/papers/letter.ts';
import { orderPaper } from '../../report/papers/order.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { PAPER_OF, PaperKind } from '../paper-command.ts';
import type { Refusal } from '../world.ts';
import type { MadePaper } from './made.ts';

type Options = Pick<OptionsOf<'paper'>, 'buyer'>;

type RecordOfPaper<P extends PaperKind> = RecordOf[(typeof PAPER_OF)[P]];

/** How every paper that is of one record is made. */
export const PAPERS: {
  readonly [P in Exclude<PaperKind, 'labels'>]: (
    scene: PaperScene,
    record: RecordOfPaper<P>,
    options: Options,
  ) => MadePaper | Refusal;
} = {
  invoice: invoiceOf,
  receipt: receiptOf,
  credit: creditOf,
  order: orderOf,
  sent: sentOf,
  owed: owedBy,
  care: careOf,
};

/** Whether all of a sale came back. */
export function isAllBack({ lines }: Sale): boolean {
  return lines.every(({ returned }) => returned === 'yes');
}

function invoiceOf(scene: PaperScene, sale: Sale): MadePaper | Refusal {
  if (isAllBack(sale))
    return { refused: `${sale.id} only gives back: its paper is saggar paper credit ${sale.id}` };
  return { paper: invoicePaper(scene, sale), notes: billNotes(scene, sale, 'invoice') };
}

function receiptOf(scene: PaperScene, sale: Sale): MadePaper | Refusal {
  const paid = paidOn(sale);
  if (isAllBack(sale))
    return { refused: `${sale.id} only gives back: its paper is saggar paper credit ${sale.id}` };
  if (paid === undefined || paid > scene.asOf)
    return {
      refused: `${sale.id} is not paid by ${scene.asOf}: print its invoice, or write the day first: saggar amend ${sale.id} paid=${scene.asOf}`,
    };
  return { paper: receiptPaper(scene, sale), notes: taxNotes(scene, sale) };
}

function creditOf(scene: PaperScene, sale: Sale): MadePaper | Refusal {
  if (!isAllBack(sale))
    return {
      refused: `${sale.id} sells something: a credit note is of a sale of returns, as in saggar add sales --credits ${sale.id} --line "1 … returned"`,
    };
  return { paper: creditPaper(scene, sale), notes: billNotes(scene, sale, 'credit') };
}

/** What to know of an invoice before it goes out. */
function billNotes(scene: PaperScene, sale: Sale, kind: 'invoice' | 'credit'): string[] {
  const { number, id, credits } = sale;
  return [
    ...(number === undefined
      ? [`it has no number yet; to give it the next one: saggar paper ${kind} ${id} --number`]
      : []),
    ...(kind === 'credit' && credits === undefined
      ? [`it names no invoice; to name one: saggar amend ${id} credits=ID`]
      : []),
    ...letterNotes(scene),
    ...taxNotes(scene, sale),
  ];
}

function letterNotes({ book }: PaperScene): string[] {
  return book.studio.papers?.letterhead === undefined
    ? ['it has no address of yours: write papers: with letterhead: in studio.yaml']
    : [];
}

function taxNotes({ book }: PaperScene, sale: Sale): string[] {
  const isInStates = book.studio.currency === 'USD';
  return isInStates || saleMoney(book, sale).tax === NO_MONEY
    ? []
    : [
        'if you are registered for VAT: this is not a VAT invoice, which is not supported; ask whoever files for you',
      ];
}

function orderOf(scene: PaperScene, order: Order): MadePaper {
  return { paper: orderPaper(scene, order), notes: letterNotes(scene) };
}

function sentOf(scene: PaperScene, consigned: Consigned): MadePaper | Refusal {
  if ((consigned.sent ?? []).length === 0)
    return { refused: `nothing was sent with ${consigned.id}` };
  return { paper: sentPaper(scene, consigned), notes: letterNotes(scene) };
}

function owedBy(scene: PaperScene, channel: Channel, { buyer }: Options): MadePaper | Refusal {
  const { book, asOf } = scene;
  const debts = owedByOthers(book, flow(book, asOf), asOf)
    .filter((debt) => debt.channel === channel.id)
    .map((debt) => (channel.kind === 'consignment' ? { ...debt, who: channel.name } : debt));
  const names = [...new Set(debts.map(({ who }) => who))];
  const [only = channel.name, ...others] = names;
  if (buyer !== undefined && !names.includes(buyer))
    return {
      refused: `${buyer} owes nothing of ${channel.id}${names.length === 0 ? '' : `; ${listed(names)} ${names.length === 1 ? 'does' : 'do'}`}`,
    };
  if (buyer === undefined && others.length > 0)
    return {
      refused: `${listed(names)} owe something of ${channel.id}: say whose account with --buyer`,
    };
  const who = buyer ?? only;
  const own: readonly Debt[] = debts.filter((debt) => debt.who === who);
  return { paper: owedPaper(scene, channel, { who, debts: own }), notes: letterNotes(scene) };
}

function careOf(scene: PaperScene, product: Product): MadePaper | Refusal {
  const statements = careStatements(scene.book, product, scene.asOf);
  if (statements.length === 0)
    return {
      refused: `${product.id} claims nothing about its care: add care to the product first`,
    };
  const failed = statements.filter(({ isFailed }) => isFailed).map(({ care }) => care);
  const notes = failed.length === 0 ? [] : [failedNote(product.id, failed)];
  return { paper: carePaper(scene, product), notes: [...notes, ...letterNotes(scene)] };
}

function failedNote(id: string, failed: readonly string[]): string {
  return `left out, for a test failed: ${listed(failed)}; what was sold under that claim: saggar claims ${id}`;
}
