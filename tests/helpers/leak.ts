/** Whether the value of the materials is somewhere to the last minor unit. */
import { add, less, total, type Money } from '../../src/number/money.ts';
import type { MaterialValue } from '../../src/reckon/stock/where.ts';

/** What came less what stands and left: nothing, unless value leaks. */
export function leak({ bought, opened, standing, leaving }: MaterialValue): Money {
  const came = add(bought, total(Object.values(opened)));
  return less(came, total(Object.values(standing)), total(Object.values(leaving)));
}
