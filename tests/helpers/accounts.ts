/** What the facts of ware come to by where the cost went. */
import { NO_COST, addCosts, type Cost } from '../../src/reckon/costs/cost.ts';
import type { EarnedLine } from '../../src/reckon/sales/earned.ts';
import type { WareFact } from '../../src/reckon/ware/ware.ts';
import type { WareFlow } from '../../src/reckon/flows.ts';

/** What an account has come to. */
export function accountCost(facts: Iterable<WareFact>, account: WareFact['reason']): Cost {
  const own = [...facts].filter(({ reason }) => reason === account);
  return own.reduce((all, { cost }) => addCosts(all, cost), NO_COST);
}

/** Sale → what each of its lines took from the shelf. */
export function soldLines({
  sales,
}: Pick<WareFlow, 'sales'>): ReadonlyMap<string, readonly EarnedLine[]> {
  return new Map([...sales].map(({ id, lines }) => [id, lines]));
}

/** What the lines of a load bear, line by line: on their lots, or of classes and others. */
export function borneBy(facts: Iterable<WareFact>, firing: string): Cost[] {
  return [...facts]
    .filter(({ by, reason }) => by === firing && (reason === 'fired' || reason === 'others'))
    .map(({ cost }) => cost);
}
