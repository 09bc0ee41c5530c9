/** More pieces were wanted than there are, and how the book comes to what there is. */
import type { Day } from '../book.ts';
import type { Spot } from '../problem.ts';
import { decimal } from '../number/decimal.ts';
import type { Shortfall } from './stock.ts';
import type { LotState } from './ware.ts';

/** A shortage of pieces, as a value for the rules. */
export function pieceShortfall(
  kind: Shortfall['kind'],
  where: { day: Day; at: Spot; what: string },
  counts: { wanted: number; had: number; because: string },
): Shortfall {
  const { wanted, had, because } = counts;
  return { kind, ...where, wanted: decimal(wanted), had: decimal(had), because };
}

/** How the book comes to the count at a stage: `24 made − 1 lost 2026-02-22`. */
export function stepsInWords(state: LotState, stage: number): string {
  const steps = state.steps.filter((step) => step.stage === stage);
  if (steps.length === 0) return '0';
  const words = steps.map(({ change, words }, index) => {
    const sign = change < 0 ? '− ' : index === 0 ? '' : '+ ';
    return `${sign}${String(Math.abs(change))} ${words}`;
  });
  return words.join(' ');
}
