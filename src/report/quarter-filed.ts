/** The part of the tax summary on what was filed: each line beside what the book comes to now. */
import { counted, sentences } from '../in-words.ts';
import type { Basis } from '../reckon/income-fact.ts';
import { movedLines, type FiledPeriod } from '../reckon/filed.ts';
import { listed } from '../check/finding.ts';
import type { QuarterPart } from './quarter-rows.ts';
import type { Column } from './table.ts';

/** A summary's filings, and the basis on which what was filed is looked at. */
interface FiledView {
  readonly filed: readonly FiledPeriod[];
  readonly basis: Basis;
}

/** Columns that only a period with a filing has. */
export function filedColumns(filed: readonly FiledPeriod[]): Column[] {
  if (filed.length === 0) return [];
  return [
    { key: 'filed', title: 'Filed', type: 'money' },
    { key: 'difference', title: 'Difference', type: 'money' },
  ];
}

/** A part for each sheet that was filed; a difference is what there is now less what was filed. */
export function filedParts({ filed, basis }: FiledView): QuarterPart[] {
  return filed.map(({ filing, sheet, lines }) => ({
    part: `Filed on ${filing.date}: ${sheet.title}, ${basis} basis`,
    rows: lines.map(({ line, now, filed: was, difference }) => ({
      item: `filed.${filing.id}.${line.key}`,
      name: line.title,
      amount: now,
      toDate: null,
      filed: was,
      difference,
      sheetLine: line.number,
      behind: [filing.id],
    })),
  }));
}

/** What is to be said of filings: what they no longer are, and which of them count no more. */
export function filedNotes({ filed, basis }: FiledView, shown: Basis): string[] {
  if (filed.length === 0) return [];
  return sentences(
    ...filed.map(differs),
    ...filed.map(replaces),
    shown !== basis && `What was filed is beside what there is now on the ${basis} basis.`,
  );
}

function differs(filed: FiledPeriod): string | undefined {
  const moved = movedLines(filed);
  if (moved.length === 0) return undefined;
  const { filing, period } = filed;
  const [verb, lines] = moved.length === 1 ? ['differs', 'line'] : ['differ', 'lines'];
  return `${counted(moved.length, 'line')} of ${period.name} ${verb} from what was filed on ${filing.date} (${lines} ${listed(moved.map(({ name }) => name))}). Look at what changed (saggar review), and ask whoever files for you whether to correct the filing.`;
}

function replaces({ filing, replaced }: FiledPeriod): string | undefined {
  if (replaced.length === 0) return undefined;
  const days = listed(replaced.map(({ date }) => date));
  return `The filing of ${filing.date} counts, and takes the place of that of ${days}.`;
}
