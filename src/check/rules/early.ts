/** Nothing can be fired, mixed, tested, sold or lost before it is there. */
import type { Advance, Day, Fair, Firing, Lot, NamedBook, Sale, Test } from '../../book.ts';
import { WITH_BAGS, bagsOf, namedBags, type Bags, type NamedBag } from '../across.ts';
import { findEach, keySpot, spot, type RuleFinding, type Say, type Sited } from '../finding.ts';
import {
  each,
  over,
  short,
  type EachScene,
  type ReachedBook,
  type Rule,
  type TooEarly,
} from '../rule.ts';

const beforeItExisted: Rule = {
  name: 'before-it-existed',
  severity: 'error',
  about: 'A record uses something that came into being only later.',
  looks: [
    short(({ early }, book) => early.map((each) => beforeFinished(book, each))),
    each('firings', lookAtLoad),
    each('mixed', (mix, { book, say }) => {
      if (mix.topsUp === undefined) return;
      const use = { user: mix, date: mix.date, path: ['tops-up'], did: 'was topped up' };
      usedEarly(use, book.mixed.get(mix.topsUp), say);
    }),
    each('pieces', lookAtLot),
    over(WITH_BAGS, (book) => {
      const named = namedBags(book);
      return named.length === 0 ? [] : boughtLater(named, bagsOf(book));
    }),
    each('tests', lookAtTest),
    each('sales', lookAtSale),
    each('advances', lookAtRefunds),
    each('firings', lookAtUnloading),
    each('fairs', lookAtFair),
    over({ classes: 'all', sales: { having: 'class' } }, changedEarly),
    each('kilns', (kiln, { say }) => {
      kiln.wear?.forEach(({ part, fitted, replaced }, index) => {
        if (fitted === undefined || replaced === undefined || replaced >= fitted) return;
        say({
          at: spot(kiln, 'wear', index, 'replaced'),
          message: `${part} was replaced on ${replaced}, but fitted on ${fitted}`,
          hint: ONE_OF_TWO,
        });
      });
    }),
  ],
};

const ONE_OF_TWO = 'correct one of the two dates';

/** What is used on a day, and the record that brings it into being. */
interface Use {
  readonly user: Sited;
  readonly date: Day;
  readonly path: readonly (string | number)[];
  readonly did: string;
}

function usedEarly(use: Use, made: (Sited & { readonly date: Day }) | undefined, say: Say): void {
  if (made === undefined || made.date <= use.date) return;
  say({
    at: spot(use.user, ...use.path),
    message: `${made.id} is of ${made.date}, but ${use.did} on ${use.date}`,
    hint: 'correct one of the two dates, or name another',
    related: [{ at: keySpot(made), message: `${made.id} itself` }],
  });
}

function lookAtLoad(firing: Firing, { book, say }: EachScene): void {
  firing.load.forEach(({ lot }, index) => {
    if (lot === undefined) return;
    const path = ['load', index, 'lot'];
    const use = { user: firing, date: firing.date, path, did: 'was fired' };
    usedEarly(use, book.pieces.get(lot), say);
  });
}

/** Bags that no purchase or mix of that material brought before they were used. */
function boughtLater(
  named: readonly NamedBag[],
  bags: ReadonlyMap<string, Bags>,
): readonly RuleFinding[] {
  return named.flatMap(({ record, path, material, bag }) => {
    const bought = bags.get(material)?.get(bag);
    if (bought === undefined || bought <= record.date) return [];
    const did = path[0] === 'lots' ? 'mixed' : 'made into ware';
    return [
      {
        at: spot(record, ...path),
        message: `${bag} was bought on ${bought}, but ${did} on ${record.date}`,
        hint: 'correct one of the two dates, or name another bag',
      },
    ];
  });
}

function lookAtLot(lot: Lot, { say }: EachScene): void {
  for (const list of ['lost', 'gone'] as const)
    lot[list]?.forEach(({ date }, index) => {
      if (date >= lot.date) return;
      say({
        at: spot(lot, list, index, 'date'),
        message: `pieces left the lot on ${date}, but it was made on ${lot.date}`,
        hint: ONE_OF_TWO,
      });
    });
}

function lookAtTest(test: Test, { book, say }: EachScene): void {
  const subjects = {
    lot: book.pieces.get(test.lot ?? ''),
    mix: book.mixed.get(test.mix ?? ''),
    firing: book.firings.get(test.firing ?? ''),
  };
  for (const [key, made] of Object.entries(subjects))
    usedEarly({ user: test, date: test.date, path: [key], did: 'was tested' }, made, say);
}

function lookAtSale(sale: Sale, { book, say }: EachScene): void {
  sale.advances?.forEach(({ advance }, index) => {
    const path = ['advances', index, 'advance'];
    const use = { user: sale, date: sale.date, path, did: 'was used' };
    usedEarly(use, book.advances.get(advance), say);
  });
}

/** Money can't be paid back before it came in. */
function lookAtRefunds(advance: Advance, { say }: EachScene): void {
  advance.refunded?.forEach(({ date }, index) => {
    if (date >= advance.date) return;
    const message = `this was paid back on ${date}, but taken on ${advance.date}`;
    say({ at: spot(advance, 'refunded', index, 'date'), message, hint: ONE_OF_TWO });
  });
}

function lookAtUnloading(firing: Firing, { say }: EachScene): void {
  const { date, unloaded = date } = firing;
  if (unloaded >= date) return;
  const message = `this was unloaded on ${unloaded}, but fired on ${date}`;
  say({ at: spot(firing, 'unloaded'), message, hint: ONE_OF_TWO });
}

function lookAtFair(fair: Fair, { say }: EachScene): void {
  const { date, last = date } = fair;
  if (last >= date) return;
  const message = `the fair begins on ${date}, but ends on ${last}`;
  say({ at: spot(fair, 'last'), message, hint: ONE_OF_TWO });
}

/** A class is there from its first day, or from when its first place was sold. */
function changedEarly({
  classes,
  sales,
}: ReachedBook<{ classes: 'all'; sales: { having: string } }>): readonly RuleFinding[] {
  return findEach(classes, (taught, say) => {
    taught.changes?.forEach(({ from }, index) => {
      if (from >= taught.starts || isSoldBefore(sales.values(), taught.id, from)) return;
      say({
        at: spot(taught, 'changes', index, 'from'),
        message: `${taught.id} changes on ${from}, but starts on ${taught.starts} and had sold no place by then`,
        hint: 'correct one of the two dates, or write what is changed in the class itself',
        related: [{ at: spot(taught, 'starts'), message: 'its first day' }],
      });
    });
  });
}

function isSoldBefore(sales: Iterable<Sale>, id: string, day: Day): boolean {
  for (const { date, lines } of sales)
    if (date < day && lines.some((line) => line.class === id)) return true;
  return false;
}

function beforeFinished(
  book: NamedBook,
  { shortfall, lot: id, finishedOn }: TooEarly,
): RuleFinding {
  const lot = book.pieces.get(id);
  return {
    at: shortfall.at,
    message: `no piece of ${id} was finished before ${finishedOn}, but this is of ${shortfall.day}`,
    hint: 'correct one of the two dates, or name another lot',
    ...(lot && { related: [{ at: keySpot(lot), message: 'the lot' }] }),
  };
}

/** The rules on what was not there yet. */
export const EARLY_RULES: readonly Rule[] = [beforeItExisted];
