/** What went into a firing and came out of it: each piece once, in its turn, to its cone. */
import type { LoadLine, NamedBook, Recipe } from '../../book.ts';
import { inForce, placeInForce } from '../../in-force.ts';
import { counted } from '../../in-words.ts';
import { compareCones, type Cone } from '../../number/cone.ts';
import { ZERO } from '../../number/decimal.ts';
import type { Spot } from '../../problem.ts';
import { outcomeOf } from '../../reckon/kilns/out-of-kiln.ts';
import type { Shortfall } from '../../reckon/stock/stock.ts';
import { glazesOf } from '../across.ts';
import { keySpot, listed, spot, type RuleFinding } from '../finding.ts';
import { each, short, type Rule } from '../rule.ts';
import { becauseOf } from '../shortage-words.ts';

const loadDoesNotAddUp: Rule = {
  name: 'load-does-not-add-up',
  severity: 'error',
  about: 'The firsts, seconds and lost of a load line do not make the pieces that went in.',
  unsettles: true,
  looks: [
    each('firings', (firing, { say }) => {
      firing.load.forEach((line, index) => {
        const out = cameOut(line);
        if (out === undefined || out === line.in) return;
        say({
          at: spot(firing, 'load', index, 'in'),
          message: `${counted(line.in, 'piece')} went in, but ${outcomeText(line)} = ${out} came out`,
          hint: addingUp(line, out),
        });
      });
    }),
  ],
};

/** Each of the counts with which the line would add up. */
function addingUp(line: LoadLine, out: number): string {
  const missing = line.in - out;
  const outcome = (['first', 'second', 'lost'] as const).map(
    (key) => [key, (line[key] ?? 0) + missing] as const,
  );
  const possible = [...outcome.filter(([, count]) => count >= 0), ['in', out] as const];
  const fields = possible.map(([key, count]) => `${key}: ${count}`);
  return `write ${listed(fields, 'or')}, whichever was miscounted`;
}

/** Pieces accounted for, or undefined while the line is still in the kiln. */
function cameOut(line: LoadLine): number | undefined {
  const outcome = outcomeOf(line);
  return outcome && outcome.first + outcome.second + outcome.lost;
}

function outcomeText({ first, second, lost }: LoadLine): string {
  return `${first ?? 0} first + ${second ?? 0} second + ${lost ?? 0} lost`;
}

const causesExceedLosses: Rule = {
  name: 'causes-exceed-losses',
  severity: 'error',
  about:
    'The causes of a load line count more pieces than its seconds and lost, or its lost-to does not fit them.',
  looks: [
    each('firings', (firing, { say }) => {
      firing.load.forEach((line, index) => {
        const found = tooManyCauses(line) ?? unfitLostTo(line);
        if (!found) return;
        const { field, message, hint } = found;
        say({ at: keySpot(firing, 'load', index, field), message, hint });
      });
    }),
  ],
};

interface Misfit {
  readonly field: 'why' | 'lost-to';
  readonly message: string;
  readonly hint: string;
}

function tooManyCauses({ why, second = 0, lost = 0 }: LoadLine): Misfit | undefined {
  const causes = piecesIn(why);
  if (causes <= second + lost) return undefined;
  return {
    field: 'why',
    message: `the causes add up to ${causes}, but only ${second} second + ${lost} lost = ${second + lost} need one`,
    hint: fewerCauses(why, causes - second - lost),
  };
}

/** Takes what is too much from the cause that counts most. */
function fewerCauses(why: LoadLine['why'] = {}, excess: number): string {
  const [[cause, count] = ['', 0]] = Object.entries(why).sort(([, one], [, other]) => other - one);
  const left =
    count > excess ? `write ${cause}: ${count - excess}, or correct another count; ` : '';
  return `${left}each second or lost piece has one cause, and a first has none`;
}

function unfitLostTo(line: LoadLine): Misfit | undefined {
  if (line.lostTo === undefined) return undefined;
  const message = lostToMessage(line, line.lostTo);
  if (message === undefined) return undefined;
  const hint =
    'lost-to says which causes of why the lost pieces are due to; the rest are of seconds';
  return { field: 'lost-to', message, hint };
}

function lostToMessage(
  { why = {}, second = 0, lost = 0 }: LoadLine,
  lostTo: NonNullable<LoadLine['lostTo']>,
): string | undefined {
  const causes = Object.entries(lostTo) as [keyof typeof why, number][];
  for (const [cause, count] of causes) {
    const inWhy = why[cause] ?? 0;
    if (count > inWhy) return `lost-to has ${count} ${cause}, but why has only ${inWhy}`;
  }
  const all = piecesIn(lostTo);
  if (all > lost) return `lost-to adds up to ${all}, but only ${lost} were lost`;
  const rest = piecesIn(why) - all;
  return rest > second
    ? `why has ${rest} more than lost-to, but only ${second} are seconds`
    : undefined;
}

function piecesIn(causes: LoadLine['why'] = {}): number {
  return Object.values(causes).reduce((total, count) => total + count, 0);
}

const lotOverdrawn: Rule = {
  name: 'lot-overdrawn',
  severity: 'error',
  about: 'More pieces of a lot were loaded or lost than there were at that stage on that day.',
  looks: [
    short(({ of }, book) =>
      firstLosses(of('stage')).map((shortfall) => {
        const { at, what } = shortfall;
        const lot = book.pieces.get(what);
        return {
          at,
          message: `lot ${what}: ${becauseOf(book, shortfall)}`,
          hint: isLoss(at) ? ofLost(shortfall) : ofLoaded(shortfall),
          ...(lot && { related: [{ at: keySpot(lot), message: 'the lot' }] }),
        };
      }),
    ),
  ],
};

function ofLoaded({ had }: Shortfall): string {
  return `name the lot that the other pieces are from; or write ${had.toString()} if the count is a slip, and what came out of them`;
}

function ofLost({ had }: Shortfall): string {
  const most = had.gt(ZERO)
    ? `write ${had.toString()} or less if the count is a slip`
    : 'correct the count';
  return `${most}, or correct the day; finished ware that broke goes under gone, as broken`;
}

/** Once more of a lot is lost than there was, every later loss is too much: the first is where to look. */
function firstLosses(shortfalls: readonly Shortfall[]): readonly Shortfall[] {
  const seen = new Set<string>();
  return shortfalls.filter(({ at, what }) => {
    if (!isLoss(at)) return true;
    const isFirst = !seen.has(what);
    seen.add(what);
    return isFirst;
  });
}

function isLoss({ path }: Spot): boolean {
  return path[1] === 'lost';
}

const firedOutOfTurn: Rule = {
  name: 'fired-out-of-turn',
  severity: 'error',
  about: "A lot went into a firing that is not next in its product's sequence.",
  looks: [
    short(({ of, after }, book) => {
      const dated = new Map<string, RuleFinding>();
      const others: RuleFinding[] = [];
      for (const shortfall of of('out-of-turn')) {
        const early = beforeLater(book, shortfall, after(shortfall));
        if (early) dated.set(early.at.path.join(' '), early);
        else others.push(outOfTurn(book, shortfall));
      }
      return [...dated.values(), ...others];
    }),
  ],
};

/** Where the firing that should have come before has a later day, one of the two dates is wrong. */
function beforeLater(
  book: NamedBook,
  { at, history }: Shortfall,
  later: readonly Shortfall[],
): RuleFinding | undefined {
  const firing = book.firings.get(String(at.path[0]));
  const fired = history?.fired ?? [];
  const before = fired.slice(0, Math.max(0, fired.indexOf(firing?.kind ?? 'test')));
  const missed = later
    .flatMap((each) => book.firings.get(String(each.at.path[0])) ?? [])
    .find(({ kind, date }) => before.includes(kind) && date > (firing?.date ?? ''));
  if (!firing || !missed) return undefined;
  return {
    at: spot(firing, 'date'),
    message: `this ${firing.kind} firing is of ${firing.date}, but the ${missed.kind} firing before it, ${missed.id}, is of ${missed.date}`,
    hint: `write ${missed.date} or a later day, or correct the date of ${missed.id}`,
    related: [{ at: spot(missed, 'date'), message: `the date of ${missed.id}` }],
  };
}

function outOfTurn(book: NamedBook, shortfall: Shortfall): RuleFinding {
  const { at, what } = shortfall;
  const kind = book.firings.get(String(at.path[0]))?.kind ?? '';
  const lot = book.pieces.get(what);
  const product = book.products.get(lot?.product ?? '');
  const made = lot?.date ?? '';
  return {
    at,
    message: `this is a ${kind} firing, but ${becauseOf(book, shortfall)}`,
    hint: "correct the firing's kind or the lot, add the firing that is missing, or write refire: yes",
    ...(inForce(product, made)?.fired &&
      product && {
        related: [
          {
            at: spot(product, ...placeInForce(product, 'fired', made)),
            message: `the sequence of ${product.id}`,
          },
        ],
      }),
  };
}

const MATURES: ReadonlySet<string> = new Set(['glaze', 'once', 'raku']);

const firedOverRecipeCone: Rule = {
  name: 'fired-over-recipe-cone',
  severity: 'warning',
  about: 'A lot was fired to another cone than that of a glaze on it.',
  looks: [
    each('firings', (firing, { book, say }) => {
      const cone = firing.cone ?? firing.coneSeen;
      if (cone === undefined || !MATURES.has(firing.kind)) return;
      firing.load.forEach((line, index) => {
        const recipe = recipesOn(book, line).find((one) => differs(line, cone, one.cone));
        if (recipe?.cone === undefined) return;
        say({
          at: spot(firing, 'load', index, 'lot'),
          message: `fired to cone ${cone}, ${compareCones(cone, recipe.cone) > 0 ? 'hotter' : 'cooler'} than cone ${recipe.cone} of ${recipe.id}`,
          hint: 'correct a cone, or leave it if the glaze was meant to go there',
          related: [{ at: spot(recipe, 'cone'), message: `the cone of ${recipe.id}` }],
        });
      });
    }),
  ],
};

function recipesOn(book: NamedBook, line: LoadLine): readonly Recipe[] {
  const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
  if (lot === undefined) return [];
  return glazesOf(book, lot).flatMap(({ recipe }) => book.recipes.get(recipe) ?? []);
}

// A second glaze firing may well be cooler, for repairs or decoration.
function differs(line: LoadLine, fired: Cone, meant: Cone | undefined): boolean {
  if (meant === undefined) return false;
  const order = compareCones(fired, meant);
  return line.refire === 'yes' ? order > 0 : order !== 0;
}

/** The rules on loads. */
export const LOAD_RULES: readonly Rule[] = [
  loadDoesNotAddUp,
  causesExceedLosses,
  lotOverdrawn,
  firedOutOfTurn,
  firedOverRecipeCone,
];
