/** The shape in which the program and the second reckoning say what a book comes to, to the cent. */
import { COMPONENTS, type Cost as PlainCost } from '../../second-reckoning/costs.ts';

type Topic =
  | 'pools'
  | 'movements'
  | 'firings'
  | 'loads'
  | 'lots'
  | 'holdings'
  | 'accounts'
  | 'lines'
  | 'sales'
  | 'meetings'
  | 'missing';

/** Topic → what → how much, as plain texts. */
export type Cents = Readonly<Record<Topic, Readonly<Record<string, string>>>>;

/** A cost of which components may lack. */
export type SomeCost = { readonly [C in keyof PlainCost]?: bigint | undefined };

/** A cost by its components, of which either reckoning may leave out those that are zero. */
export function costText(cost: SomeCost): string {
  const parts = COMPONENTS.map((one) => [one, cost[one] ?? 0n] as const);
  return parts
    .filter(([, amount]) => amount !== 0n)
    .map(([one, amount]) => `${one} ${amount}`)
    .join(', ');
}

/** Named amounts as one text. */
export function amountsText(amounts: Readonly<Record<string, unknown>>): string {
  return Object.entries(amounts)
    .map(([name, amount]) => `${name} ${String(amount)}`)
    .join(', ');
}

/** One entry of what went to an account. */
export interface Entry {
  readonly account: string;
  readonly day: string;
  readonly record: string;
  /** Empty where it is of no lot. */
  readonly lot: string;
  readonly cost: SomeCost;
}

/** Entries of one account, day, record and lot together, without those that come to nothing. */
export function accountTexts(entries: readonly Entry[]): Record<string, string> {
  const sums = new Map<string, SomeCost>();
  for (const { account, day, record, lot, cost } of entries) {
    const key = [account, day, record, lot].join(' ');
    const known = sums.get(key) ?? {};
    const added = COMPONENTS.map((one) => [one, (known[one] ?? 0n) + (cost[one] ?? 0n)]);
    sums.set(key, Object.fromEntries(added) as PlainCost);
  }
  const texts = [...sums].map(([key, cost]) => [key, costText(cost)] as const);
  return Object.fromEntries(texts.filter(([, text]) => text !== ''));
}
