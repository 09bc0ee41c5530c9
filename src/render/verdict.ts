/** What matters in a table, as people read it: a sentence, and figures with what they are. */
import type { Table } from '../report/table.ts';
import { shownColumn, type Guard } from './shown.ts';

interface ShownVerdict {
  readonly sentence: string;
  readonly figures: readonly { readonly label: string; readonly text: string }[];
}

/** The verdict with those figures that there are, as their columns show them; undefined where the table has none. */
export function shownVerdict(table: Table, guard: Guard): ShownVerdict | undefined {
  const { verdict } = table;
  if (!verdict) return undefined;
  const figures = verdict.figures.map(({ label, column, cell }) => {
    const whole = { ...column, key: 'figure', title: label };
    const { head, cells } = shownColumn({ ...table, rows: [{ figure: cell }] }, whole, guard);
    return { label: head, text: cells[0] ?? '' };
  });
  return { sentence: guard(verdict.sentence), figures: figures.filter(({ text }) => text !== '') };
}
