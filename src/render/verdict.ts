/** What matters in a table, as people read it: a sentence, and figures with what they are. */
import type { Table } from '../report/table.ts';
import { shownColumn, type Guard } from './shown.ts';

interface ShownFigure {
  readonly label: string;
  readonly text: string;
  /** Whether the sentence has it. */
  readonly isSaid: boolean;
}

interface ShownVerdict {
  readonly sentence: string;
  readonly figures: readonly ShownFigure[];
}

/** The verdict with those figures that there are, as their columns show them; undefined where the table has none. */
export function shownVerdict(table: Table, guard: Guard): ShownVerdict | undefined {
  const { verdict } = table;
  if (!verdict) return undefined;
  const said = verdict.sentence.split(/[\s()]+/).map((word) => word.replace(/[.,:;]+$/, ''));
  const figures = verdict.figures.map(({ label, column, cell }) => {
    const whole = { ...column, key: 'figure', title: label };
    const { head, cells } = shownColumn({ ...table, rows: [{ figure: cell }] }, whole, guard);
    const [text = ''] = cells;
    return { label: head, text, isSaid: said.includes(text) };
  });
  return { sentence: guard(verdict.sentence), figures: figures.filter(({ text }) => text !== '') };
}

/** Those figures that the sentence doesn't have, each after its label: `Net 45,211.17 · Margin 26,250.05`. */
export function unsaidFigures({ figures }: ShownVerdict): string {
  return figures
    .flatMap(({ label, text, isSaid }) => (isSaid ? [] : `${label} ${text}`))
    .join(' · ');
}
