/** Which table `saggar quarter` shows: the tax summary of the quarter or year that is asked for. */
import type { Studio } from '../../book.ts';
import { ONE, decimal, type Decimal } from '../../number/decimal.ts';
import { sheetsInCommit } from '../../read/git/blobs.ts';
import { openRepository } from '../../read/git/repository.ts';
import { isSheetFile, readSheet, sheetsOnDisk, type OwnSheet } from '../../read/tax-sheet.ts';
import { flow } from '../../reckon/flow.ts';
import { quarterOn, taxPeriod, type TaxPeriod } from '../../reckon/tax-period.ts';
import type { SinceClosed } from '../../report/quarter-estimates.ts';
import { quarterTable } from '../../report/quarter.ts';
import type { Table } from '../../report/table.ts';
import { unknownWord } from '../ids.ts';
import type { Opened } from '../open.ts';
import type { MakeTable, MakeTableLater } from '../show.ts';
import { chooseSheet, type ChosenSheet } from '../tax-sheets.ts';
import { uncomparedTexts } from '../uncompared.ts';
import { isRefusal, textOption, type Asked, type Refusal, type World } from '../world.ts';
import { filedIn } from './filed.ts';

/** Shows the tax summary of a quarter, by default the one that the day is in, or of a year. */
export const quarter: MakeTable = (opened, asked) =>
  summaryOf(opened, asked, { own: ownOf(opened.sheet) });

/**
 * The same by whatever sheet is asked for, with what git tells of the closed period: which of its
 * records are not as they were.
 */
export function quarterSinceClosed(world: World): MakeTableLater {
  return async (opened, asked) => {
    const since = opened.commit === undefined ? await changesIn(opened, world) : {};
    const own = await sheetsFor(opened, asked, world);
    return summaryOf(opened, asked, { ...since, own });
  };
}

async function sheetsFor(opened: Opened, asked: Asked, world: World): Promise<OwnSheet[]> {
  return [...(await askedSheet(opened, asked, world)), ...ownOf(opened.sheet)];
}

/** The sheet of a period: the one that is asked for, else the studio's, else that for its currency. */
export async function chosenSheet(
  opened: Opened,
  asked: Asked,
  { world, period }: { readonly world: World; readonly period: TaxPeriod },
): Promise<ChosenSheet | Refusal> {
  const own = await sheetsFor(opened, asked, world);
  const named = textOption(asked, 'sheet');
  return chooseSheet({ own, studio: opened.book.studio, named, year: period.year });
}

function ownOf(sheet: OwnSheet | undefined): OwnSheet[] {
  return sheet ? [sheet] : [];
}

/** The studio's own sheet of `--sheet`, from the same state of the studio as the book. */
async function askedSheet(
  { folder, commit: id }: Opened,
  asked: Asked,
  { environment }: World,
): Promise<OwnSheet[]> {
  const named = textOption(asked, 'sheet');
  if (named === undefined || !isSheetFile(named)) return [];
  if (id === undefined) return [await readSheet(named, sheetsOnDisk(folder))];
  const repository = openRepository(folder, environment);
  return isRefusal(repository) ? [] : [await readSheet(named, sheetsInCommit(repository, { id }))];
}

async function changesIn({ folder, book }: Opened, world: World): Promise<SinceClosed> {
  const { closedPeriodChanges } = await import('../closed-since.ts');
  const { changes, uncompared } = await closedPeriodChanges(folder, book, world);
  const changedSinceClosed = changes.map(({ change: { id, became, fields } }) => {
    const names = new Set(fields.map(({ path }) => String(path[0])));
    const what = became === 'changed' && names.size > 0 ? `: ${[...names].join(', ')}` : '';
    return { id, words: `${became} since${what}` };
  });
  return { changedSinceClosed, uncompared: uncomparedTexts(uncompared) };
}

interface Beside extends SinceClosed {
  readonly own: readonly OwnSheet[];
}

function summaryOf(opened: Opened, asked: Asked, { own, ...since }: Beside): Table | Refusal {
  const { book, asOf } = opened;
  const period = askedPeriod(opened, asked);
  if (isRefusal(period)) return period;
  const options = askedOptions(asked);
  if (isRefusal(options)) return options;
  const named = textOption(asked, 'sheet');
  const chosen = chooseSheet({ own, studio: book.studio, named, year: period.year });
  if (isRefusal(chosen)) return chosen;
  const { sheet, words } = chosen;
  const filed = filedIn(opened).filter((each) => each.period.name === period.name);
  return quarterTable(book, flow(book, asOf), {
    period,
    sheet,
    ...(words === undefined ? {} : { sheetWords: words }),
    ...options,
    ...since,
    filed,
  });
}

/** The quarter or year that is named, else the quarter that the day is in. */
export function askedPeriod({ book, asOf }: Opened, { argument }: Asked): TaxPeriod | Refusal {
  const { yearStarts } = book.studio;
  const period =
    argument === undefined ? quarterOn(asOf, yearStarts) : taxPeriod(argument, yearStarts);
  if (!period)
    return { refused: `a quarter is named 2026-Q2, a year 2026, and not "${argument ?? asOf}"` };
  if (period.from <= asOf) return period;
  return {
    refused: `${period.name} starts on ${period.from}, after ${asOf}, the day that is looked at`,
  };
}

interface Options {
  readonly basis?: NonNullable<Studio['basis']>;
  readonly taxRate?: Decimal;
}

const BASES = ['cash', 'accrual'] as const;
const PERCENT = /^(\d{1,3}(?:\.\d{1,8})?)%?$/;
const HUNDREDTH = decimal('0.01');

function askedOptions(asked: Asked): Options | Refusal {
  const basis = askedBasis(asked);
  if (typeof basis === 'object') return basis;
  const rate = askedRate(textOption(asked, 'taxRate'));
  if (rate && 'refused' in rate) return rate;
  return { ...(basis ? { basis } : {}), ...(rate ? { taxRate: rate } : {}) };
}

/** The basis that is asked for, if any is. */
export function askedBasis(asked: Asked): Options['basis'] | Refusal {
  const word = textOption(asked, 'basis');
  const basis = BASES.find((each) => each === word);
  return word !== undefined && !basis ? unknownWord('--basis', word, BASES) : basis;
}

function askedRate(text: string | undefined): Decimal | Refusal | undefined {
  if (text === undefined) return undefined;
  const number = PERCENT.exec(text)?.[1];
  const rate = number === undefined ? undefined : decimal(number).times(HUNDREDTH);
  if (rate?.lte(ONE)) return rate;
  return { refused: `--tax-rate takes a percentage from 0 to 100, such as 22, and not "${text}"` };
}
