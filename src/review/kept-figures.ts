/** Figures of a book in the form in which they are kept: every decimal as its digits. */
import { decimal } from '../number/decimal.ts';
import type { AskedFigures, Figure } from './follows.ts';

/** A figure as JSON can hold it. */
type KeptFigure = Omit<Figure, 'value'> & { readonly value: string | undefined };

/** The figures with every digit, for JSON. */
export function keepable(figures: readonly Figure[]): KeptFigure[] {
  return figures.map((figure) => ({ ...figure, value: figure.value?.toString() }));
}

/** The same figures again; undefined where what was kept is something else. */
export function revived(kept: unknown): Figure[] | undefined {
  if (!Array.isArray(kept)) return undefined;
  return (kept as KeptFigure[]).map(({ value, ...figure }) => ({
    ...figure,
    value: value === undefined ? undefined : decimal(value),
  }));
}

/** Names what was asked, the same for the same figures and for no others. */
export function figuresWords({ quarters, asOf, isMoneyOnly }: AskedFigures): string {
  const spans = quarters.map(({ name, from, to }) => [name, from, to]);
  return JSON.stringify(['figures', asOf, isMoneyOnly, spans]);
}
