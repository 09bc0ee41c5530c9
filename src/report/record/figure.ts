/** One figure of a record. */
import type { Kind } from '../../book.ts';
import type { Decimal } from '../../number/decimal.ts';
import type { Cell } from '../table.ts';

/** A record that is asked about. */
export interface AskedRecord {
  readonly kind: Kind;
  readonly id: string;
}

/** One figure of a record, of something where it says of what. */
export interface RecordFigure {
  readonly what: string;
  readonly of?: string | undefined;
  readonly count?: Cell;
  readonly quantity?: Cell;
  readonly unit?: string | undefined;
  readonly money?: Cell;
  readonly each?: Cell;
}

/** A quantity in its unit; whole pieces are a count. */
export function amountFigure(
  quantity: Decimal,
  unit: string | undefined,
): Pick<RecordFigure, 'count' | 'quantity' | 'unit'> {
  return unit === 'each' && quantity.isInteger() ? { count: quantity } : { quantity, unit };
}
