/** The sections of a day's end: rows for programs, and one line of words each for people. */
import { stageName } from '../../check/shortage-words.ts';
import type { Book } from '../../book.ts';
import { daysBetween } from '../../number/date.ts';
import { total as totalOf } from '../../number/money.ts';
import { digitsOf } from '../../reckon/booked.ts';
import type { DayFigures } from '../../reckon/day.ts';
import type { Debt } from '../../reckon/sales/debts.ts';
import type { TaxOwed } from '../../reckon/tax/sales-tax.ts';
import type { Depletion } from '../../reckon/stock/depletion.ts';
import { piecesOf, type Ready, type Waiting } from '../../reckon/ware/standing.ts';
import { compareTexts } from '../../text-order.ts';
import {
  amountText,
  briefDebtorText,
  briefWaitingText,
  debtorText,
  gradesText,
  inKilnText,
  onlyDebtorText,
  readyText,
  recordedText,
  roomText,
  stockText,
  waitingText,
} from './day-words.ts';
import type { SheetLine } from './sheet.ts';
import type { Row } from '../table.ts';
import { duePartRows } from './day-kilns.ts';
import { capitalised, counted } from '../../in-words.ts';

/** One thing to be said at the day's end. */
export interface Section {
  readonly rows: readonly Row[];
  readonly line: SheetLine;
}

/** What the sections are made from. */
export interface DayView {
  readonly book: Book;
  readonly figures: DayFigures;
}

const GROUP = { recorded: 0, ware: 1, kilns: 2, stock: 3, money: 4 } as const;

/** What was recorded, where everything is, what to order and who owes whom. */
export function daySections(view: DayView): Section[] {
  return [
    recorded(view),
    ...ware(view),
    ...kilns(view),
    ...kilnParts(view),
    ...stock(view),
    ...galleriesSection(view),
    ...debts(view),
  ];
}

/** A section whose line lists what its rows say, unless it has a list of its own. */
export function sectionOf(
  section: string,
  line: Omit<SheetLine, 'list'> & { readonly list?: readonly string[] },
  rows: readonly Row[],
): Section {
  const items = rows.map(({ says }, row) => ({ text: String(says), row }));
  const list = items.map(({ text }) => text);
  return { rows: rows.map((row) => ({ section, ...row })), line: { list, items, ...line } };
}

function recorded({ book, figures }: DayView): Section {
  const rows = figures.recorded.map((each) => ({
    what: each.kind,
    kind: each.firing ?? null,
    count: each.count,
    pieces: each.pieces ?? null,
    amount: each.amount ?? null,
    says: recordedText(each, digitsOf(book)),
  }));
  const lead = rows.length === 0 ? nothingRecorded(figures) : '';
  // Where not all fits on a line, what came in is to be seen.
  const isIncome = ({ what }: Row): boolean =>
    what === 'sales' || what === 'paid' || what === 'paid-missing';
  const list = [...rows.filter(isIncome), ...rows.filter((row) => !isIncome(row))].map(
    ({ says }) => says,
  );
  return sectionOf(
    'recorded',
    { label: 'Recorded today', group: GROUP.recorded, lead, list },
    rows,
  );
}

function nothingRecorded({ isEmpty, begins }: DayFigures): string {
  if (isEmpty) return 'Nothing yet';
  const first = begins();
  return first === undefined ? 'Nothing on this day' : `Nothing yet: the book begins on ${first}`;
}

function ware({ figures }: DayView): Section[] {
  const { waiting, inKiln, ready } = figures;
  const stages = [...new Set(waiting.map(nameOfStage))].sort(inTurn);
  const onTheWay = stages.map((stage) => {
    const standing = waiting.filter((each) => nameOfStage(each) === stage);
    return waitingSection(stage, standing, figures);
  });
  const sections = [
    ...onTheWay,
    ...(inKiln.length > 0 ? [kilnSection(figures)] : []),
    ...(ready.length > 0 ? [readySection(ready)] : []),
  ];
  if (sections.length > 0) return sections;
  const line = { label: 'Pieces', group: GROUP.ware, lead: 'No pieces yet' };
  return [sectionOf('ready', line, [])];
}

function nameOfStage({ fired, stage }: Waiting): string {
  return stageName(fired, stage);
}

function inTurn(one: string, other: string): number {
  return compareTexts(stageKey(one), stageKey(other));
}

function stageKey(stage: string): string {
  return `${stage === 'greenware' ? 0 : stage === 'bisqueware' ? 1 : 2}${stage}`;
}

function waitingSection(
  stage: string,
  standing: readonly Waiting[],
  { asOf }: DayFigures,
): Section {
  const rows = standing.map((each) => ({
    what: each.lot,
    name: each.name,
    kind: each.next,
    count: each.count,
    quantity: each.space,
    since: each.since,
    days: daysBetween(each.since, asOf),
    says: waitingText(each, asOf),
  }));
  const pieces = counted(totalCount(standing.map(({ count }) => count)), 'piece');
  const kinds = [...new Set(standing.map(({ next }) => next))].join(' or ');
  const lead =
    stage === 'greenware'
      ? `${pieces} in ${counted(standing.length, 'lot')}`
      : `${pieces} waiting for ${kinds}`;
  const label = capitalised(stage);
  const brief = standing.map(briefWaitingText);
  return sectionOf(stage.replaceAll(' ', '-'), { label, group: GROUP.ware, lead, brief }, rows);
}

function kilnSection({ inKiln, asOf }: DayFigures): Section {
  const rows = inKiln.map(({ firing, kilnName, count }) => ({
    what: firing.id,
    name: kilnName,
    kind: firing.kind,
    count,
    since: firing.date,
    days: daysBetween(firing.date, asOf),
    says: inKilnText({ firing, kilnName, count }, false),
  }));
  const list = inKiln.map((each) => inKilnText(each, inKiln.length === 1));
  const lead = counted(totalCount(inKiln.map(({ count }) => count)), 'piece');
  return sectionOf('in-kiln', { label: 'In the kiln', group: GROUP.ware, lead, list }, rows);
}

function readySection(ready: readonly Ready[]): Section {
  const rows = ready.flatMap(({ product, name, first, second }) =>
    [
      { what: product, name, kind: 'first', count: first },
      { what: product, name, kind: 'second', count: second },
    ]
      .filter(({ count }) => count > 0)
      .map((row) => ({ ...row, says: `${name} (${counted(row.count, row.kind)})` })),
  );
  const first = totalCount(ready.map((each) => each.first));
  const second = totalCount(ready.map((each) => each.second));
  const line = { label: 'Ready to sell', group: GROUP.ware, lead: gradesText({ first, second }) };
  const brief = ready.map(({ name }) => name);
  return sectionOf('ready', { ...line, list: ready.map(readyText), brief }, rows);
}

function kilns({ figures }: DayView): Section[] {
  return figures.kilns.map((room) => {
    const { kind, kiln, waiting, space, share } = room;
    const says = roomText(room);
    const lead = { label: `Next ${kind}`, group: GROUP.kilns, lead: says, list: [] };
    const figuresOf = { quantity: waiting, of: space, share };
    const row = { what: kiln.id, name: kiln.name, kind, ...figuresOf, says };
    return sectionOf('kiln-load', { ...lead, share: share.toNumber() }, [row]);
  });
}

function kilnParts({ figures: { partsDue, asOf } }: DayView): Section[] {
  if (partsDue.length === 0) return [];
  const line = { label: 'Kiln parts due', group: GROUP.kilns, lead: '' };
  return [sectionOf('kiln-parts', line, duePartRows(partsDue, asOf))];
}

function stock({ figures }: DayView): Section[] {
  const { toOrder, low } = figures;
  const order = { label: 'To order now', group: GROUP.stock };
  const lead = toOrder.length === 0 ? 'Nothing' : '';
  const running = { label: 'Running low', group: GROUP.stock, lead: '' };
  return [
    sectionOf('to-order', { ...order, lead }, toOrder.map(stockRow)),
    ...(low.length === 0 ? [] : [sectionOf('low', running, low.map(stockRow))]),
  ];
}

function stockRow(stock: Depletion): Row {
  const { id, name, state, onHand, unit, orderBy } = stock;
  const says = stockText(stock);
  return { what: id, name, kind: state, quantity: onHand, unit, orderBy: orderBy ?? null, says };
}

function galleriesSection({ book, figures }: DayView): Section[] {
  const { atGalleries } = figures;
  if (atGalleries.length === 0) return [];
  const places = [...new Set(atGalleries.map(({ place }) => place))];
  const rows = places.map((place) => {
    const there = atGalleries.filter((each) => each.place === place);
    const count = totalCount(there.map(piecesOf));
    const name = book.channels.get(place)?.name ?? place;
    return { what: place, name, count, says: `${name} (${count})` };
  });
  const list = rows.map(({ name, says }) => (rows.length === 1 ? name : says));
  const lead = counted(totalCount(atGalleries.map(piecesOf)), 'piece');
  return [
    sectionOf('at-galleries', { label: 'At galleries', group: GROUP.money, lead, list }, rows),
  ];
}

function debts({ book, figures }: DayView): Section[] {
  const { owedByOthers, owedByStudio, taxOwed } = figures;
  return [
    ...debtSection(book, owedByOthers, { section: 'owed-to-you', label: 'Owed to you' }),
    ...debtSection(book, owedByStudio, { section: 'you-owe', label: 'You owe' }),
    ...taxSection(book, taxOwed),
  ];
}

/** Sales tax that is to be paid over, by place. */
function taxSection(book: Book, owed: readonly TaxOwed[]): Section[] {
  if (owed.length === 0) return [];
  const digits = digitsOf(book);
  const lead = amountText(totalOf(owed.map(({ amount }) => amount)), digits);
  const rows = owed.map(({ place, amount }) => {
    const name = place === '' ? 'no place named' : place;
    return {
      name,
      amount,
      says: owed.length === 1 ? name : `${name} ${amountText(amount, digits)}`,
    };
  });
  return [
    sectionOf('sales-tax', { label: 'Sales tax to pay over', group: GROUP.money, lead }, rows),
  ];
}

function debtSection(
  book: Book,
  owing: readonly Debt[],
  { section, label }: { section: string; label: string },
): Section[] {
  if (owing.length === 0) return [];
  const digits = digitsOf(book);
  const all = totalOf(owing.map(({ amount }) => amount));
  const line = { label, group: GROUP.money, lead: amountText(all, digits) };
  const rows = owing.map((debt) => ({
    what: debt.by,
    name: debt.who,
    amount: debt.amount,
    since: debt.since,
    says: debtorText(debt.who, [debt], digits),
  }));
  const byWho = debtors(owing);
  const list = byWho.map(([who, its]) =>
    byWho.length === 1 ? onlyDebtorText(who, its) : debtorText(who, its, digits),
  );
  const brief = byWho.map(([who, its]) =>
    byWho.length === 1 ? who : briefDebtorText(who, its, digits),
  );
  return [sectionOf(section, { ...line, list, brief }, rows)];
}

/** Debts by who has them, the largest sum first. */
function debtors(owing: readonly Debt[]): [string, Debt[]][] {
  const byWho = new Map<string, Debt[]>();
  for (const debt of owing) byWho.set(debt.who, [...(byWho.get(debt.who) ?? []), debt]);
  const sumOf = (its: readonly Debt[]) => totalOf(its.map(({ amount }) => amount));
  return [...byWho].sort(([, one], [, other]) => Number(sumOf(other) - sumOf(one)));
}

function totalCount(counts: readonly number[]): number {
  return counts.reduce((all, count) => all + count, 0);
}
