/** Nothing can be fired, mixed, tested, sold or lost before it is there. */
import type { Advance, Day, Fair, Firing, Lot, NamedBook, Sale, Test } from '../../book.ts';
import type { Finding } from '../../problem.ts';
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
  unsettles: true,
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
          hint: fromOn(fitted),
        });
      });
    }),
  ],
};

/** What to write for a day that is too early, beside another one. */
function fromOn(day: Day): string {
  return `write ${day} or a later day, or correct the other date`;
}

/** What is used on a day, and the record that brings it into being. */
interface Use {
  readonly user: Sited;
  readonly date: Day;
  readonly path: readonly (string | number)[];
  /** How that one came into being. */
  readonly came?: string;
  readonly did: string;
}

function usedEarly(use: Use, made: (Sited & { readonly date: Day }) | undefined, say: Say): void {
  if (made === undefined || made.date <= use.date) return;
  say({
    at: spot(use.user, ...use.path),
    message: `${made.id} ${use.came ?? 'was made'} on ${made.date}, after it ${use.did} (${use.date})`,
    hint: `write date: ${made.date} or a later day, correct the other date, or name another`,
    related: [{ at: keySpot(made), message: `${made.id} itself` }],
  });
}

function lookAtLoad(firing: Firing, { book, say }: EachScene): void {
  const lots = firing.load.flatMap(({ lot = '' }) => book.pieces.get(lot) ?? []);
  const early = lots.filter(({ date }) => date > firing.date);
  const last = early.reduce((day, { date }) => (date > day ? date : day), '');
  if (early.length > 1 && early.length === lots.length)
    say({
      at: spot(firing, 'date'),
      message: `this firing is of ${firing.date}, before its lots were made (the last on ${last})`,
      hint: fromOn(last),
    });
  else for (const lot of early) say(madeAfter(lot, firing));
}

/** Said at the lot, once of all its firings. */
function madeAfter(lot: Lot, firing: Firing): RuleFinding {
  const left = [...(lot.lost ?? []), ...(lot.gone ?? [])].map(({ date }) => date);
  const [first = firing.date] = [firing.date, ...left].sort();
  return {
    at: spot(lot, 'date'),
    message: `${lot.id} was made on ${lot.date}, after it was fired (${firing.date})`,
    hint: `write ${first} or an earlier day, or correct the date of ${firing.id}`,
    related: [{ at: spot(firing, 'date'), message: `the date of ${firing.id}` }],
  };
}

/** Where the day of a lot is what is wrong, nothing else that is too early for it is. */
export function onceOfEachLot(findings: readonly Finding[]): readonly Finding[] {
  const told = new Set<string>();
  const dated = findings.filter(({ rule, at }) => rule === beforeItExisted.name && isDate(at));
  const lots = new Set(dated.map(lotOf));
  if (lots.size === 0) return findings;
  return findings.filter((finding) => {
    const lot = lotOf(finding);
    if (finding.rule !== beforeItExisted.name || !lots.has(lot)) return true;
    const isFirst = isDate(finding.at) && !told.has(lot);
    if (isFirst) told.add(lot);
    return isFirst;
  });
}

function isDate(at: Finding['at']): boolean {
  return 'path' in at && at.path.length === 2 && at.path[1] === 'date';
}

function lotOf({ at }: Finding): string {
  return `${at.file} ${'path' in at ? String(at.path[0]) : ''}`;
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
        hint: `write date: ${bought} or a later day, correct the other date, or name another bag`,
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
        hint: fromOn(lot.date),
      });
    });
}

const TESTED = {
  lot: { did: 'was tested' },
  mix: { did: 'was tested' },
  firing: { came: 'was fired', did: 'was tested' },
} as const;

function lookAtTest(test: Test, { book, say }: EachScene): void {
  const subjects = {
    lot: book.pieces.get(test.lot ?? ''),
    mix: book.mixed.get(test.mix ?? ''),
    firing: book.firings.get(test.firing ?? ''),
  };
  for (const key of ['lot', 'mix', 'firing'] as const)
    usedEarly({ user: test, date: test.date, path: [key], ...TESTED[key] }, subjects[key], say);
}

function lookAtSale(sale: Sale, { book, say }: EachScene): void {
  sale.advances?.forEach(({ advance }, index) => {
    const path = ['advances', index, 'advance'];
    const use = { user: sale, date: sale.date, path, came: 'was taken', did: 'was used' };
    usedEarly(use, book.advances.get(advance), say);
  });
}

/** Money can't be paid back before it came in. */
function lookAtRefunds(advance: Advance, { say }: EachScene): void {
  advance.refunded?.forEach(({ date }, index) => {
    if (date >= advance.date) return;
    const message = `this was paid back on ${date}, but taken on ${advance.date}`;
    say({ at: spot(advance, 'refunded', index, 'date'), message, hint: fromOn(advance.date) });
  });
}

function lookAtUnloading(firing: Firing, { say }: EachScene): void {
  const { date, unloaded = date } = firing;
  if (unloaded >= date) return;
  const message = `this was unloaded on ${unloaded}, but fired on ${date}`;
  say({ at: spot(firing, 'unloaded'), message, hint: fromOn(date) });
}

function lookAtFair(fair: Fair, { say }: EachScene): void {
  const { date, last = date } = fair;
  if (last >= date) return;
  const message = `the fair begins on ${date}, but ends on ${last}`;
  say({ at: spot(fair, 'last'), message, hint: fromOn(date) });
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
        hint: `write ${taught.starts} or a later day, correct the other date, or write what is changed in the class itself`,
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
    hint: `write date: ${finishedOn} or a later day, correct the other date, or name another lot`,
    ...(lot && { related: [{ at: keySpot(lot), message: 'the lot' }] }),
  };
}

/** The rules on what was not there yet. */
export const EARLY_RULES: readonly Rule[] = [beforeItExisted];
