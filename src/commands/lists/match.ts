/** `saggar match FILE --by MAP`: a bank's or a card reader's list against the book. */
import { listedMoney } from '../../entry/lists/listed-money.ts';
import type { ListMap } from '../../entry/lists/map.ts';
import { addDays } from '../../number/date.ts';
import { digitsOf } from '../../reckon/booked.ts';
import {
  matchMoney,
  type ListedMoney,
  type Matching,
  type MoneyMatch,
} from '../../reckon/sales/matching.ts';
import { moneyAwaited, moneyPaid, type MovedMoney } from '../../reckon/sales/money-moved.ts';
import { matchByMonth, matchTable } from '../../report/match.ts';
import type { Book } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { locate } from '../../read/place.ts';
import type { Table } from '../../report/table.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { complainOf } from '../records/change.ts';
import { isFaulty, readAskedList, type ReadList } from './list-asked.ts';
import type { OpenedBook } from '../studio/open.ts';
import { findInTime } from '../studio/find-studio.ts';
import { EXIT, isRefusal, type Asked, type Refusal, type World } from '../world.ts';
import { refuse, showReport } from '../reports/show.ts';

type Matched = Asked<OptionsOf<'match'>>;

/** So many days may lie between a record and its row, unless another number is given. */
const USUAL_DAYS = 10;

/** Shows what is on one side only; what is wrong with the list is shown at its rows. */
export const match: CommandOf<'match'> = async (asked, world) => {
  const days = daysAsked(asked.options.days);
  if (typeof days !== 'number') return refuse(world, days);
  const found = await findInTime(asked, world);
  if (isRefusal(found)) return refuse(world, found);
  const read = await readAskedList({ list: asked.argument, by: asked.options.by }, found, world);
  if (isRefusal(read)) return refuse(world, read);
  if (isFaulty(read)) {
    complainOf(world, await locate(found.folder, read.findings));
    return EXIT.errors;
  }
  const table = (opened: OpenedBook): Promise<Table | Refusal> =>
    tableOf(opened, asked, { read, days, world });
  return showReport(asked, world, () => Promise.resolve({ table }));
};

interface ListForMatch {
  readonly read: ReadList;
  readonly days: number;
  readonly world: World;
}

async function tableOf(
  { book, asOf, folder }: OpenedBook,
  { options }: Matched,
  { read: { map, table }, days, world }: ListForMatch,
): Promise<Table | Refusal> {
  const { listed, findings } = listedMoney(table, map, digitsOf(book));
  if (findings.length > 0) {
    complainOf(world, await locate(folder, findings));
    return { refused: `${counted(findings.length, 'row')} of the list to look at first` };
  }
  if (listed.length === 0) return { refused: `${table.file} has no rows to compare` };
  const matching = matchingOf(book, listed, { days, channels: channelsOf(map) });
  const unpaid = unpaidOf(matching, moneyAwaited(book, asOf));
  const matched = { book, asOf, list: table.file, matching, unpaid };
  return options.byMonth
    ? matchByMonth(matched)
    : matchTable(matched, { all: options.all === true });
}

function daysAsked(days: string | undefined): number | Refusal {
  if (days === undefined) return USUAL_DAYS;
  if (/^\d{1,3}$/.test(days)) return Number(days);
  return { refused: `--days is how many days may lie between the two, such as 10; not "${days}"` };
}

/** The channels whose money is on the list; all where it says none. */
function channelsOf({ channels, fixed }: ListMap): readonly string[] | undefined {
  const only = fixed.get('channel');
  if (channels.length > 0) return channels;
  return only === undefined ? undefined : [only];
}

interface MatchAsked {
  readonly days: number;
  readonly channels: readonly string[] | undefined;
}

/** Records of some days around the list may be on it; those outside its own days are not missed on it. */
function matchingOf(
  book: Book,
  listed: readonly ListedMoney[],
  { days, channels }: MatchAsked,
): Matching {
  const sorted = listed.map(({ date }) => date).sort();
  const [from = '', to = ''] = [sorted[0], sorted.at(-1)];
  const around = { from: addDays(from, -days - LONGEST_TERM), to: addDays(to, days) };
  const moved = moneyPaid(book, { ...around, ...(channels && { channels }) });
  const matching = matchMoney({ listed, moved, days });
  const isWithin = ({ date }: { readonly date: string }): boolean => date >= from && date <= to;
  return { ...matching, onlyMoved: matching.onlyMoved.filter(isWithin) };
}

/** Rows that name a sale which is not paid in the book. */
function unpaidOf(
  { onlyListed: listed }: Matching,
  moved: readonly MovedMoney[],
): readonly MoneyMatch[] {
  const { matches } = matchMoney({ listed, moved, days: LONGEST_DEBT });
  return matches.filter(({ by }) => by === 'number');
}

/** Five years. */
const LONGEST_DEBT = 1826;

/** A payout or a statement may be of sales so many days before. */
const LONGEST_TERM = 31;
