/** A weight, a volume, an energy and a count can't stand for one another. */
import type { Rule } from '../rule.ts';
import { badFuelUnits } from '../units/fuel.ts';
import { unweighable } from '../units/recipes.ts';
import { badStockUnits } from '../units/stock.ts';

export const badUnit: Rule = {
  name: 'bad-unit',
  severity: 'error',
  about: 'A quantity is in a unit that measures something else than what is wanted there.',
  looks: [...badStockUnits, unweighable, ...badFuelUnits],
};
