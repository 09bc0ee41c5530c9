/** What the facts of ware come to by where the cost went. */
import { NO_COST, addCosts, type Cost } from '../../src/reckon/cost.ts';
import type { WareFact } from '../../src/reckon/ware.ts';

/** What an account has come to. */
export function accountCost(facts: Iterable<WareFact>, account: WareFact['reason']): Cost {
  const own = [...facts].filter(({ reason }) => reason === account);
  return own.reduce((all, { cost }) => addCosts(all, cost), NO_COST);
}

/** What the lines of a load bear, line by line: on their lots, or of classes and others. */
export function borneBy(facts: Iterable<WareFact>, firing: string): Cost[] {
  return [...facts]
    .filter(({ by, reason }) => by === firing && (reason === 'fired' || reason === 'others'))
    .map(({ cost }) => cost);
}
