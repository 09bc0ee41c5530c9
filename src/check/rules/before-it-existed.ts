/** Nothing can be fired, mixed, tested, sold or lost before it is there. */
import type { Book, Day, Firing, Lot, Mixed, Sale, Test } from '../../book.ts';
import { bagsOf, clayOn } from '../across.ts';
import { findEach, keySpot, spot, type Say, type Sited } from '../finding.ts';
import type { Rule, RuleFinding } from '../rule.ts';
import { tooEarly, type TooEarly } from '../shortfalls.ts';

export const beforeItExisted: Rule = {
  name: 'before-it-existed',
  severity: 'error',
  about: 'A record uses something that came into being only later.',
  find: (book, day) => [
    ...tooEarly(book, day).map((early) => beforeFinished(book, early)),
    ...findEach(book.firings, (firing, say) => {
      lookAtLoad(book, firing, say);
    }),
    ...findEach(book.mixed, (mix, say) => {
      lookAtMix(book, mix, say);
    }),
    ...findEach(book.pieces, (lot, say) => {
      lookAtLot(book, lot, say);
    }),
    ...findEach(book.tests, (test, say) => {
      lookAtTest(book, test, say);
    }),
    ...findEach(book.sales, (sale, say) => {
      lookAtSale(book, sale, say);
    }),
    ...backwards(book),
    ...changedEarly(book),
    ...findEach(book.kilns, (kiln, say) => {
      kiln.wear?.forEach(({ part, fitted, replaced }, index) => {
        if (fitted === undefined || replaced === undefined || replaced >= fitted) return;
        say({
          at: spot(kiln, 'wear', index, 'replaced'),
          message: `${part} was replaced on ${replaced}, but fitted on ${fitted}`,
          hint: 'correct one of the two dates',
        });
      });
    }),
  ],
};

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

function lookAtLoad(book: Book, firing: Firing, say: Say): void {
  firing.load.forEach(({ lot }, index) => {
    if (lot === undefined) return;
    const path = ['load', index, 'lot'];
    const use = { user: firing, date: firing.date, path, did: 'was fired' };
    usedEarly(use, book.pieces.get(lot), say);
  });
}

function lookAtMix(book: Book, mix: Mixed, say: Say): void {
  if (mix.topsUp !== undefined) {
    const use = { user: mix, date: mix.date, path: ['tops-up'], did: 'was topped up' };
    usedEarly(use, book.mixed.get(mix.topsUp), say);
  }
  for (const [material, bag] of Object.entries(mix.lots ?? {})) {
    const use = { user: mix, date: mix.date, path: ['lots', material], did: 'mixed' };
    lookAtBag(use, { bag, bought: bagsOf(book).get(material)?.get(bag) }, say);
  }
}

function lookAtBag(
  use: Use,
  { bag, bought }: { readonly bag: string; readonly bought: Day | undefined },
  say: Say,
): void {
  if (bought === undefined || bought <= use.date) return;
  say({
    at: spot(use.user, ...use.path),
    message: `${bag} was bought on ${bought}, but ${use.did} on ${use.date}`,
    hint: 'correct one of the two dates, or name another bag',
  });
}

function lookAtLot(book: Book, lot: Lot, say: Say): void {
  for (const list of ['lost', 'gone'] as const)
    lot[list]?.forEach(({ date }, index) => {
      if (date >= lot.date) return;
      say({
        at: spot(lot, list, index, 'date'),
        message: `pieces left the lot on ${date}, but it was made on ${lot.date}`,
        hint: 'correct one of the two dates',
      });
    });
  const bag = lot.clay?.lot;
  const material = lot.clay?.material ?? clayOn(book, lot)?.material;
  if (bag === undefined || material === undefined) return;
  const use = { user: lot, date: lot.date, path: ['clay', 'lot'], did: 'made into ware' };
  lookAtBag(use, { bag, bought: bagsOf(book).get(material)?.get(bag) }, say);
}

function lookAtTest(book: Book, test: Test, say: Say): void {
  const subjects = {
    lot: book.pieces.get(test.lot ?? ''),
    mix: book.mixed.get(test.mix ?? ''),
    firing: book.firings.get(test.firing ?? ''),
  };
  for (const [key, made] of Object.entries(subjects))
    usedEarly({ user: test, date: test.date, path: [key], did: 'was tested' }, made, say);
}

function lookAtSale(book: Book, sale: Sale, say: Say): void {
  sale.advances?.forEach(({ advance }, index) => {
    const path = ['advances', index, 'advance'];
    const use = { user: sale, date: sale.date, path, did: 'was used' };
    usedEarly(use, book.advances.get(advance), say);
  });
}

/** Refunds before the money came in, fairs that end before they begin, kilns unloaded before they were fired. */
function backwards(book: Book): readonly RuleFinding[] {
  const hint = 'correct one of the two dates';
  return [
    ...findEach(book.advances, (advance, say) => {
      advance.refunded?.forEach(({ date }, index) => {
        if (date >= advance.date) return;
        const message = `this was paid back on ${date}, but taken on ${advance.date}`;
        say({ at: spot(advance, 'refunded', index, 'date'), message, hint });
      });
    }),
    ...findEach(book.firings, (firing, say) => {
      const { date, unloaded = date } = firing;
      if (unloaded >= date) return;
      const message = `this was unloaded on ${unloaded}, but fired on ${date}`;
      say({ at: spot(firing, 'unloaded'), message, hint });
    }),
    ...findEach(book.fairs, (fair, say) => {
      const { date, last = date } = fair;
      if (last >= date) return;
      say({
        at: spot(fair, 'last'),
        message: `the fair begins on ${date}, but ends on ${last}`,
        hint,
      });
    }),
  ];
}

/** A class is there from its first day, or from when its first place was sold. */
function changedEarly(book: Book): readonly RuleFinding[] {
  return findEach(book.classes, (taught, say) => {
    taught.changes?.forEach(({ from }, index) => {
      if (from >= taught.starts || isSoldBefore(book, taught.id, from)) return;
      say({
        at: spot(taught, 'changes', index, 'from'),
        message: `${taught.id} changes on ${from}, but starts on ${taught.starts} and had sold no place by then`,
        hint: 'correct one of the two dates, or write what is changed in the class itself',
        related: [{ at: spot(taught, 'starts'), message: 'its first day' }],
      });
    });
  });
}

function isSoldBefore({ sales }: Book, id: string, day: Day): boolean {
  return [...sales.values()].some(
    ({ date, lines }) => date < day && lines.some((line) => line.class === id),
  );
}

function beforeFinished(book: Book, { shortfall, lot: id, finishedOn }: TooEarly): RuleFinding {
  const lot = book.pieces.get(id);
  return {
    at: shortfall.at,
    message: `no piece of ${id} was finished before ${finishedOn}, but this is of ${shortfall.day}`,
    hint: 'correct one of the two dates, or name another lot',
    ...(lot && { related: [{ at: keySpot(lot), message: 'the lot' }] }),
  };
}
