/** Nothing leaves that was not there, and what was there when the book began is counted once. */
import type { Counted, CountedMaterial, CountedWare, NamedBook } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { counted } from '../../in-words.ts';
import { ZERO } from '../../number/decimal.ts';
import { isOpening } from '../../reckon/stock/opening.ts';
import { firingsOf, stageOf } from '../../reckon/ware/stages.ts';
import type { Shortfall } from '../../reckon/stock/stock.ts';
import { findEach, keySpot, listed, spot, type RuleFinding, type Say } from '../finding.ts';
import { each, short, type Rule } from '../rule.ts';
import { becauseOf, insteadHint, onHand } from '../shortage-words.ts';

const stockBelowZero: Rule = {
  name: 'stock-below-zero',
  severity: 'warning',
  about: 'More of a material or a mixed glaze was drawn than the book has in stock.',
  looks: [
    short(({ of }, book) =>
      inOneDraw(
        [...grouped(of('material', 'bucket'), ({ what }) => what).values()].map((each) =>
          asOne(book, each),
        ),
      ),
    ),
  ],
};

/** What ran short in one draw. */
interface OneShort {
  readonly first: Shortfall;
  readonly there: string;
  readonly words: string;
}

// Once the book has too little every draw is short, and the first one is where to look.
function asOne(book: NamedBook, shortfalls: readonly Shortfall[]): OneShort[] {
  const [first, ...later] = shortfalls;
  if (first === undefined) return [];
  const others = later.length === 0 ? '' : `, and short in ${counted(later.length, 'later draw')}`;
  const words = `${becauseOf(book, first)}${others}`;
  return [{ first, there: onHand(book, first), words }];
}

/** A mix that is too large is short of all its materials at once. */
function inOneDraw(all: readonly OneShort[][]): readonly RuleFinding[] {
  const draws = grouped(all.flat(), ({ first }) => `${first.at.file} ${first.at.path.join(' ')}`);
  return [...draws.values()].flatMap((draw) => {
    const [one] = draw;
    if (one === undefined) return [];
    const { at, day, kind } = one.first;
    const source = kind === 'bucket' ? 'mix' : 'purchase';
    const names = listed(draw.map(({ first }) => first.what));
    const words = draw.map(({ words: each }) => each).join('; ');
    return [
      {
        at,
        message: `${names} ran short on ${day}: ${words}`,
        hint: `add the ${source} that is missing, or count what is there${atMost(draw)}`,
      },
    ];
  });
}

function atMost([one, ...others]: readonly OneShort[]): string {
  const isQuantity = one?.first.at.path.at(-1) === 'quantity' && others.length === 0;
  return isQuantity && one.first.had.gt(ZERO)
    ? `; if the quantity is a slip, write ${one.there} or less`
    : '';
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
        hint: `add the lot or firing that is missing, count what was there, or correct the date${insteadHint(shortfall)}`,
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
        hint: `add what was sent there before, or correct the date${insteadHint(shortfall)}`,
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
    hint: 'take cost out, and it is a stocktake; only what was there before all else in the book has one',
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

/** The rules on stock. */
export const STOCK_RULES: readonly Rule[] = [
  stockBelowZero,
  soldMoreThanFinished,
  consignedOverdrawn,
  openingCount,
];
