/** Figures that are out of scale: changed to ten times what they were, or a tenth. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import { ZERO, decimal, divide, isDecimal, roundTo, type Decimal } from '../number/decimal.ts';
import type { RecordChange } from './changes.ts';
import type { FieldChange } from './fields.ts';
import { comparable, isFields, isQuantity } from './value.ts';

/** A changed figure beside what it was before. */
export interface OutOfScale {
  readonly path: readonly (string | number)[];
  /** What the figure is of: `mug`, `kaolin`. */
  readonly of: string;
  readonly spec: FieldSpec;
  readonly value: unknown;
  readonly before: unknown;
  /** Ten or more for a figure that is too large, a tenth or less for one that is too small. */
  readonly factor: Decimal;
}

const TEN = decimal(10);
const TENTH = decimal('0.1');

/** Of changed records the figures that are ten times their old value or more, or a tenth or less. */
export function outOfScale(
  changes: readonly RecordChange[],
): ReadonlyMap<RecordChange, OutOfScale[]> {
  const found = changes.map((change) => [change, outliersOf(change)] as const);
  return new Map(found.filter(([, outliers]) => outliers.length > 0));
}

function outliersOf({ kind, after, fields }: RecordChange): OutOfScale[] {
  return kind === 'studio' || !after ? [] : fields.flatMap(farOff);
}

function farOff({ path, spec, before, after, item: of = '' }: FieldChange): OutOfScale[] {
  const [size, other] = [sizeOf(after), sizeOf(before)];
  if (!size || size.unit !== other?.unit) return [];
  const factor = ratio(size.value, other.value);
  return factor ? [{ path, of, spec, value: after, before, factor }] : [];
}

/** value ÷ other where that is ten or more, or a tenth or less. */
function ratio(value: Decimal, other: Decimal): Decimal | undefined {
  if (value.lte(ZERO) || other.lte(ZERO)) return undefined;
  const factor = divide(value, other);
  return factor.gte(TEN) || factor.lte(TENTH) ? factor : undefined;
}

/** A factor in words: `10 times`, `a 12th of`. */
export function factorText(factor: Decimal): string {
  if (factor.gte(TEN)) return `${roundTo(factor, 1).toString()} times`;
  return `1/${roundTo(divide(decimal(1), factor), 1).toString()} of`;
}

/** The size of a value that has one, and the unit that it can be compared in. */
function sizeOf(value: unknown): { value: Decimal; unit: string } | undefined {
  if (isDecimal(value)) return { value, unit: '' };
  if (typeof value === 'number') return { value: decimal(value), unit: '' };
  if (isFields(value) && isDecimal(value['amount'])) return { value: value['amount'], unit: '' };
  if (!isQuantity(value)) return undefined;
  const { value: size, of } = comparable(value);
  return { value: size, unit: of };
}
