/** What was there when the book began is counted once, on the day that it begins, and can be used later. */
import type { Counted, CountedMaterial, CountedWare, NamedBook } from '../../book.ts';
import { firingsOf } from '../../reckon/firing-draws.ts';
import { isOpening, stageOf } from '../../reckon/opening.ts';
import type { Shortfall } from '../../reckon/stock.ts';
import { findEach, keySpot, type RuleFinding, type Say, spot } from '../finding.ts';
import { each, short, type Rule } from '../rule.ts';

export const openingCount: Rule = {
  name: 'opening-count',
  severity: 'error',
  about:
    'A count with a cost is not of what was there when the book began, or lacks what it needs.',
  looks: [
    each('counted', (counted, { book, say }) => {
      lookAtCount(book, counted, say);
    }),
    short(({ of }, book) =>
      of('opening')
        .filter(({ at }) => !isTold(book, lineOf(at.path)))
        .map(notTheFirst),
    ),
  ],
};

/** One mistake of a line is told once. */
function isTold(book: NamedBook, line: string): boolean {
  const counted = book.counted.get(line.split(' ', 1)[0] ?? '');
  const found = findEach(new Map([['', counted]]), (each, say) => {
    if (each) lookAtCount(book, each, say);
  });
  return found.some(({ at }) => lineOf(at.path) === line);
}

function lineOf(path: RuleFinding['at']['path']): string {
  return path.slice(0, 3).join(' ');
}

function notTheFirst({ at, what, because }: Shortfall): RuleFinding {
  if (because === 'twice')
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

function lookAtCount(book: NamedBook, counted: Counted, say: Say): void {
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

interface Fault extends Omit<RuleFinding, 'at'> {
  readonly key?: string;
}

function costOfNothing({ quantity, cost }: CountedMaterial): Fault | undefined {
  if (!quantity.value.isZero() || cost === undefined || cost.isZero()) return undefined;
  return NOTHING_THERE;
}

const NOTHING_THERE: Fault = {
  key: 'cost',
  message: 'none is counted, so there is nothing that this can be the cost of',
  hint: 'correct what was counted, or leave out the cost',
};

/** A stocktake counts finished ware of all lots together. */
function faultWithoutCost({ stage = 'finished', lot }: CountedWare): Fault | undefined {
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

function faultOfWare(book: NamedBook, counted: Counted, line: CountedWare): Fault | undefined {
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

function faultOnTheWay({ lot, grade, place }: CountedWare, stage: string): Fault | undefined {
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
