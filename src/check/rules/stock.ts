/** Nothing leaves that was not there, and what was there when the book began is counted once. */
import { recordsDuring } from '../../among.ts';
import type {
  Counted,
  CountedMaterial,
  CountedWare,
  Day,
  Kind,
  NamedBook,
  Studio,
} from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { counted } from '../../in-words.ts';
import { addDays } from '../../number/date.ts';
import { isBeforeStart, isOpening } from '../../reckon/stock/opening.ts';
import { firingsOf, stageOf } from '../../reckon/ware/stages.ts';
import type { Shortfall } from '../../reckon/stock/stock.ts';
import {
  findEach,
  keySpot,
  NOUN,
  spot,
  type RuleFinding,
  type Say,
  type Sited,
} from '../finding.ts';
import { each, over, short, type Rule } from '../rule.ts';
import { becauseOf } from '../shortage-words.ts';

const stockBelowZero: Rule = {
  name: 'stock-below-zero',
  severity: 'warning',
  about: 'More of a material or a mixed glaze was drawn than the book has in stock.',
  looks: [
    short(({ of }, book) =>
      [...grouped(of('material', 'bucket'), ({ what }) => what).values()].flatMap((each) =>
        asOne(book, each),
      ),
    ),
  ],
};

// Once the book is behind every draw is short, and the first one is where to look.
function asOne(book: NamedBook, [first, ...later]: readonly Shortfall[]): readonly RuleFinding[] {
  if (first === undefined) return [];
  const { at, what, day, kind } = first;
  const others = later.length === 0 ? '' : `, and short in ${counted(later.length, 'later draw')}`;
  const source = kind === 'bucket' ? 'mix' : 'purchase';
  return [
    {
      at,
      message: `${what} ran short on ${day}: ${becauseOf(book, first)}${others}`,
      hint: `add the ${source} that is missing, correct a quantity, or count what is there`,
    },
  ];
}

const soldMoreThanFinished: Rule = {
  name: 'sold-more-than-finished',
  severity: 'error',
  about: 'More finished ware was sold, sent to a gallery or given away than there was.',
  looks: [
    short(({ of }, book) =>
      of('finished').map((shortfall) => ({
        at: shortfall.at,
        message: `not enough of ${shortfall.what}: ${becauseOf(book, shortfall)}`,
        hint: 'correct the count, grade or date, add the lot or firing that is missing, or count what was there',
      })),
    ),
  ],
};

const consignedOverdrawn: Rule = {
  name: 'consigned-overdrawn',
  severity: 'error',
  about: 'A gallery sold, gave back or misses more than was left with it.',
  looks: [
    short(({ of }, book) =>
      of('consigned').map((shortfall) => ({
        at: shortfall.at,
        message: `not enough of ${shortfall.what}: ${becauseOf(book, shortfall)}`,
        hint: 'correct the count or grade, or add what was sent there before',
      })),
    ),
  ],
};

const openingCount: Rule = {
  name: 'opening-count',
  severity: 'error',
  about:
    'A count with a cost is not of what was there when the book began, or lacks what it needs.',
  looks: [
    each('counted', lookAtCount),
    short(({ of }, book) =>
      of('opening')
        .filter(({ at }) => !isTold(book, lineOfCount(at.path)))
        .map(notTheFirst),
    ),
  ],
};

/** One mistake of a line is told once. */
function isTold(book: NamedBook, line: string): boolean {
  const counted = book.counted.get(line.split(' ', 1)[0] ?? '');
  const found = findEach(new Map([['', counted]]), (each, say) => {
    if (each) lookAtCount(each, { book, say });
  });
  return found.some(({ at }) => lineOfCount(at.path) === line);
}

function lineOfCount(path: RuleFinding['at']['path']): string {
  return path.slice(0, 3).join(' ');
}

function notTheFirst({ at, what, isTwice = false }: Shortfall): RuleFinding {
  if (isTwice)
    return {
      at,
      message: `the same ware of ${what} is counted with a cost twice`,
      hint: 'put it together on one line, with the cost of all of it; or name the lots',
    };
  return {
    at,
    message: `${what} was in the book before this count, so it is not opening stock`,
    hint: 'leave out the cost, and it is a stocktake; only what was there before all else in the book has one',
  };
}

function lookAtCount(
  counted: Counted,
  { book, say }: { readonly book: NamedBook; readonly say: Say },
): void {
  const { materials = [], pieces = [], date } = counted;
  const { starts } = book.studio;
  const isElsewhen = starts !== undefined && starts !== date;
  if (isElsewhen && [...materials, ...pieces].some(isOpening)) {
    say({
      at: spot(counted, 'date'),
      message: `this count has a cost, and the book starts on ${starts}`,
      hint: `date it ${starts}, or leave out the costs, and it is a stocktake`,
    });
    return;
  }
  materials.forEach((line, index) => {
    const fault = isOpening(line) ? costOfNothing(line) : undefined;
    if (fault) say({ at: spot(counted, 'materials', index, 'cost'), ...fault });
  });
  pieces.forEach((line, index) => {
    const fault = isOpening(line) ? faultOfWare(book, counted, line) : faultWithoutCost(line);
    if (!fault) return;
    const { key, ...said } = fault;
    say({ at: spot(counted, 'pieces', index, ...(key === undefined ? [] : [key])), ...said });
  });
}

interface LineFault extends Omit<RuleFinding, 'at'> {
  readonly key?: string;
}

function costOfNothing({ quantity, cost }: CountedMaterial): LineFault | undefined {
  if (!quantity.value.isZero() || cost === undefined || cost.isZero()) return undefined;
  return NOTHING_THERE;
}

const NOTHING_THERE: LineFault = {
  key: 'cost',
  message: 'none is counted, so there is nothing that this can be the cost of',
  hint: 'correct what was counted, or leave out the cost',
};

/** A stocktake counts finished ware of all lots together. */
function faultWithoutCost({ stage = 'finished', lot }: CountedWare): LineFault | undefined {
  const hint = 'give the cost of all of it, 0 if it had none, where the book begins with it; else';
  if (stage !== 'finished')
    return {
      key: 'stage',
      message: 'a stocktake counts finished ware; what is lost on the way is written at its lot',
      hint: `${hint} leave out the line`,
    };
  if (lot === undefined) return undefined;
  const message = 'a stocktake counts the ware of all lots together';
  return { key: 'lot', message, hint: `${hint} leave out the lot` };
}

function faultOfWare(book: NamedBook, counted: Counted, line: CountedWare): LineFault | undefined {
  const { product, lot: id, stage = 'finished', count, cost } = line;
  if (count === 0 && cost && !cost.isZero()) return NOTHING_THERE;
  const fired = firingsOf(book.products.get(product));
  if (book.products.has(product) && stageOf(fired, stage) === undefined)
    return {
      key: 'stage',
      message: `${product} is fired ${fired.join(', then ')}, and is never ${stage} on the way`,
      hint: 'correct the stage, or the product',
    };
  const lot = id === undefined ? undefined : book.pieces.get(id);
  if (lot && lot.date > counted.date)
    return {
      key: 'lot',
      message: `lot ${lot.id} was made on ${lot.date}, after this count of ${counted.date}`,
      hint: 'correct one of the two dates, or name another lot',
      related: [{ at: keySpot(lot), message: 'the lot' }],
    };
  return stage === 'finished' ? undefined : faultOnTheWay(line, stage);
}

function faultOnTheWay({ lot, grade, place }: CountedWare, stage: string): LineFault | undefined {
  if (lot === undefined)
    return {
      message: `${stage} needs a lot, or no firing could load it`,
      hint: 'record the lot under pieces with the day it was made, and name it here; it draws no clay',
    };
  const key = grade === undefined ? 'place' : 'grade';
  if (grade === undefined && place === undefined) return undefined;
  const what = key === 'grade' ? 'has no grade yet' : 'is in the studio';
  return { key, message: `${stage} ${what}`, hint: `leave out the ${key}` };
}

/** Purchases and sales count as money all the same; a count may well be of before. */
const MOVING = ['reclaimed', 'mixed', 'firings', 'used', 'consigned'] as const;

const beforeTheStart: Rule = {
  name: 'before-the-start',
  severity: 'warning',
  about: 'A record is dated before the book starts, and would move stock if it were later.',
  looks: [
    each('studio', closedBefore),
    each(MOVING, (record, { book, say }, kind) => {
      if (isBeforeStart(book, record.date)) say(tooSoon(book, kind, record));
    }),
    each('counted', (counted, { book, say }) => {
      if (isBeforeStart(book, counted.date) && !isAtTheOpening(counted))
        say(tooSoon(book, 'counted', counted));
    }),
    over({ pieces: 'all', counted: { having: 'cost' } }, (book) => {
      const { starts } = book.studio;
      if (starts === undefined) return [];
      const opened = lotsCounted(book.counted.values());
      const early = [...recordsDuring(book.pieces, { to: addDays(starts, -1) })];
      return early
        .filter(({ id, date }) => date < starts && !opened.has(id))
        .map((lot) => tooSoon(book, 'pieces', lot));
    }),
  ],
};

/** A count with a cost has a rule of its own. */
function isAtTheOpening({ materials = [], pieces = [] }: Counted): boolean {
  return [...materials, ...pieces].some(isOpening);
}

/** Lots of which something was there when the book started. */
function lotsCounted(counts: Iterable<Counted>): ReadonlySet<string | undefined> {
  const lots = [...counts].flatMap(({ pieces = [] }) => pieces.filter(isOpening));
  return new Set(lots.map(({ lot }) => lot));
}

function tooSoon(
  { studio }: Pick<NamedBook, 'studio'>,
  kind: Kind,
  record: Sited & { readonly date: Day },
): RuleFinding {
  return {
    at: spot(record, 'date'),
    message: `this ${NOUN[kind]} is of ${record.date}, before the book starts (${studio.starts ?? ''}): it moves no stock`,
    hint: kind === 'pieces' ? OF_LOTS : 'leave it as it is, or correct the date',
  };
}

const OF_LOTS =
  'count what was left of it on that day, with its cost and this lot; or correct the date';

/** Figures that went out for days before the start had no cost of what was sold. */
function closedBefore(studio: Studio, { say }: { readonly say: Say }): void {
  const { starts, closedThrough, file } = studio;
  if (starts === undefined || closedThrough === undefined) return;
  if (starts <= addDays(closedThrough, 1)) return;
  say({
    at: { file, path: ['starts'] },
    message: `the book starts on ${starts}, after days that are closed (through ${closedThrough}): their cost of goods is not known`,
    hint: 'correct one of the two dates, or leave them where what was filed had no cost of goods from this book',
  });
}

/** The rules on stock. */
export const STOCK_RULES: readonly Rule[] = [
  stockBelowZero,
  soldMoreThanFinished,
  consignedOverdrawn,
  openingCount,
  beforeTheStart,
];
