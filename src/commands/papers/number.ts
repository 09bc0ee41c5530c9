/** `saggar paper invoice SALE --number`: writes the next number of a series into the sale. */
import type { InvoiceSeries, Sale } from '../../book.ts';
import { branchAround } from '../../read/git/around.ts';
import { nextNumber, numberedSales } from '../../reckon/sales/invoice-numbers.ts';
import { printed } from '../../render/printable.ts';
import type { OptionsOf } from '../catalogue.ts';
import { amendWith } from '../records/amend.ts';
import type { Scene } from '../records/change.ts';
import { askedRecord } from '../records/find-record.ts';
import { say } from '../records/told.ts';
import { refuse } from '../reports/show.ts';
import { EXIT, isRefusal, type Refusal } from '../world.ts';
import { isAllBack } from './papers.ts';

type NumberOptions = OptionsOf<'paper'>;

/** Gives a sale its number. */
export async function numberAsked(scene: Scene<NumberOptions>): Promise<number> {
  const { asked, world, opened } = scene;
  const id = asked.words[1];
  const record = askedRecord({ argument: id }, opened);
  if (isRefusal(record)) return refuse(world, record);
  const sale = opened.book.sales.get(record.id);
  const refusal = unfit(scene, sale);
  if (!sale || refusal) return refuse(world, refusal ?? { refused: `${record.id} is not a sale` });
  const series = seriesAsked(scene);
  if (isRefusal(series)) return refuse(world, series);
  const number = nextNumber(numberedSales(opened.book), series);
  const amendments = [{ path: ['number'], value: number }];
  const done = `Numbered ${record.id} as ${number}`;
  const status = await amendWith(scene, record, { amendments, done, asking: {} });
  if (status === EXIT.fine && !asked.options.dryRun)
    say(
      scene,
      printed`To print it: saggar paper ${asked.argument ?? ''} ${record.id} --as html > FILE.html\n`,
    );
  return status;
}

/** Why a sale can't be given a number. */
function unfit(
  { asked, opened }: Scene<NumberOptions>,
  sale: Sale | undefined,
): Refusal | undefined {
  const { book, errors } = opened;
  if (asked.words.length > 2) return { refused: 'one number at a time: name one sale' };
  if (errors > 0)
    return { refused: 'the book has errors, so a number may be given twice. Run: saggar check' };
  if (!sale) return undefined;
  const { id, number, credits } = sale;
  if (number !== undefined) return { refused: `${id} has the number ${number} already` };
  const isBack = isAllBack(sale);
  if (asked.argument === 'invoice')
    return isBack
      ? { refused: `${id} only gives back: saggar paper credit ${id} --number` }
      : undefined;
  if (!isBack) return { refused: `${id} sells something: saggar paper invoice ${id} --number` };
  return book.sales.has(credits ?? '')
    ? undefined
    : { refused: `say first which sale it credits: saggar amend ${id} credits=ID` };
}

const SERIES = /^(?=\d*[A-Za-z-])[A-Za-z0-9](?:[A-Za-z0-9-]*[A-Za-z-])?$/;
const USUAL_BRANCHES: readonly string[] = ['main', 'master'];

/** The series that is named, else that of the settings, which is used on one branch alone. */
function seriesAsked({ asked, opened }: Scene<NumberOptions>): InvoiceSeries | Refusal {
  const { invoices } = opened.book.studio;
  const { series } = asked.options;
  if (series !== undefined) {
    if (!SERIES.test(series))
      return { refused: `"${series}" is not a series: write letters, such as A, or 2026-` };
    return { ...(invoices?.digits === undefined ? {} : { digits: invoices.digits }), series };
  }
  if (!invoices)
    return {
      refused:
        'no series is set: write invoices: { series: A } in studio.yaml, or name one with --series A',
    };
  const branch = branchAround(opened.folder);
  const homes = invoices.branch === undefined ? USUAL_BRANCHES : [invoices.branch];
  if (branch === undefined || homes.includes(branch)) return invoices;
  const here = branch === '' ? 'no branch is checked out' : `this is the branch ${branch}`;
  return {
    refused: `${here}, and numbers of the series ${invoices.series} are given on ${homes[0] ?? ''}, so that none is given twice; go there, or name a series for this one, such as --series ${invoices.series}B`,
  };
}
