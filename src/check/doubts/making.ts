/** Weights of pieces and distances driven that are far from the book's own. */
import type { ClayUse, Day, GlazeUse, Spent } from '../../book.ts';
import { inBase, type Quantity } from '../../number/unit.ts';
import { KM_IN_A_MILE } from '../../reckon/tax/tax-expenses.ts';
import { eachStating } from '../finding.ts';
import { usual, type Rule } from '../rule.ts';
import { isAbove } from './amounts.ts';
import type { GatherScene } from './figure.ts';
import { BY_MANY_TIMES, BY_TIMES } from './measures.ts';

const CLAY = { measure: BY_TIMES, what: 'clay of' };
const GLAZE = { measure: BY_TIMES, what: 'glaze of' };
const GLAZE_ON_CLAY = { measure: BY_TIMES, what: 'a piece with' };

const weightSlip: Rule = {
  name: 'weight-slip',
  severity: 'warning',
  isDoubt: true,
  about:
    'The clay or glaze of a piece weighs far more or less than that product has had otherwise, or its glaze than that on other ware.',
  looks: [
    usual('products', CLAY, (product, { note }) => {
      eachStating(product, ({ clay, ...stated }, above) => {
        const day = 'from' in stated ? stated.from : '';
        const path = [...above, 'clay', 'each'];
        if (clay) note({ like: product.id, day, path, ...weight(clay.each) });
      });
    }),
    usual('pieces', CLAY, ({ product: like, date: day, clay }, { note }) => {
      if (clay?.each) note({ like, day, path: ['clay', 'each'], ...weight(clay.each) });
    }),
    usual('products', GLAZE, (product, scene) => {
      eachStating(product, ({ glazes, ...stated }, above) => {
        const day = 'from' in stated ? stated.from : '';
        noteGlazes({ product: product.id, day, glazes, above }, scene);
      });
    }),
    usual('pieces', GLAZE, ({ product, date: day, glazes }, scene) => {
      noteGlazes({ product, day, glazes, above: [] }, scene);
    }),
    usual('products', GLAZE_ON_CLAY, ({ clay, glazes = [] }, { note }) => {
      const most = glazes.toSorted((one, other) => amountIn(other.each) - amountIn(one.each))[0];
      if (!clay || !most) return;
      const path = ['glazes', glazes.indexOf(most), 'each'];
      const text = (): string => `${most.each.text} of glaze on ${clay.each.text} of clay`;
      const size = amountIn(most.each) / amountIn(clay.each);
      note({ like: 'its size', size, day: '', path, text });
    }),
  ],
};

interface Glazed {
  readonly product: string;
  readonly day: Day;
  readonly glazes: readonly GlazeUse[] | undefined;
  readonly above: readonly (string | number)[];
}

function noteGlazes({ product, day, glazes = [], above }: Glazed, { note }: GatherScene): void {
  glazes.forEach(({ recipe, each }, index) => {
    const path = [...above, 'glazes', index, 'each'];
    note({ like: `${recipe} on ${product}`, day, path, ...weight(each) });
  });
}

function weight(each: ClayUse['each']): { size: number; text: () => string } {
  return { size: amountIn(each), text: () => each.text };
}

/** In g, or mL; not a number (NaN) where it is nothing. */
function amountIn({ value, unit }: Quantity): number {
  return isAbove(value) ? inBase(value, unit).toNumber() : NaN;
}

const distanceSlip: Rule = {
  name: 'distance-slip',
  severity: 'warning',
  isDoubt: true,
  about:
    'A distance is far from the others to the same payee for the same channel, or from what was paid for so far.',
  looks: [
    usual('spent', { measure: BY_MANY_TIMES, what: 'a drive of' }, (spent, { note }) => {
      const { to, channel } = spent;
      const like = channel === undefined ? to : `${to}, ${channel}`;
      noteDistance(spent, { like, by: 1 }, note);
    }),
    usual('spent', { measure: BY_MANY_TIMES, what: 'a paid drive of' }, (spent, { note }) => {
      if (isAbove(spent.amount))
        noteDistance(spent, { like: spent.to, by: spent.amount.toNumber() }, note);
    }),
  ],
};

function noteDistance(
  { date: day, distance }: Spent,
  { like, by }: { readonly like: string; readonly by: number },
  note: GatherScene['note'],
): void {
  if (distance === undefined) return;
  const [number, unit] = distance.split(' ');
  const km = Number(number) * (unit === 'mi' ? KM_IN_A_MILE.toNumber() : 1);
  if (km > 0) note({ like, size: km / by, day, path: ['distance'], text: () => distance });
}

/** The rules on weights and distances. */
export const MAKING_DOUBTS: readonly Rule[] = [weightSlip, distanceSlip];
