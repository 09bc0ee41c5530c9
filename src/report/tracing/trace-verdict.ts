/** What matters of a trace, in a sentence: how many pieces there are of it, and where they are. */
import { listed } from '../../check/finding.ts';
import { grouped } from '../../grouping.ts';
import { counted, setApart } from '../../in-words.ts';
import type { Verdict, VerdictFigure } from '../table.ts';
import { TRACE_HEADINGS, type TraceLine } from './trace-lines.ts';
import type { TraceRow } from './trace-summary.ts';

export function traceVerdict(lines: readonly TraceLine[], short: readonly TraceRow[]): Verdict {
  const parts = grouped(lines, ({ part }) => part);
  const at = (part: keyof typeof TRACE_HEADINGS): readonly TraceLine[] =>
    parts.get(TRACE_HEADINGS[part]) ?? [];
  const [all] = short;
  if (!all || at('lots').length === 0)
    return { sentence: 'No piece with it is on record.', figures: [] };
  const sold = at('sold').filter(({ kind }) => kind !== 'returned');
  const buyers = new Set(sold.flatMap(({ buyer }) => buyer ?? []));
  const places = [
    ...(at('standing').length > 0 ? ['in the studio'] : []),
    ...(at('galleries').length > 0 ? ['at galleries'] : []),
    ...(sold.length > 0 ? [soldText(buyers.size)] : []),
  ];
  const where = places.length === 0 ? '' : `: ${listed(places)}`;
  const sentence = `${piecesText(all)}${where}.`;
  return { sentence, figures: [figureOf(all, 'Pieces, at most')] };
}

/** `68 pieces are concerned`, `Up to 140 pieces may be concerned, none for certain`. */
function piecesText({ least = 0, most = 0 }: TraceRow): string {
  const all = `${setApart(String(most))} ${most === 1 ? 'piece' : 'pieces'}`;
  if (least === most) return `${all} ${most === 1 ? 'is' : 'are'} concerned`;
  const sure = least === 0 ? 'none' : setApart(String(least));
  return `Up to ${all} may be concerned, ${sure} for certain`;
}

function soldText(buyers: number): string {
  return buyers === 0
    ? 'sold to nobody on record'
    : `sold to ${counted(buyers, 'buyer')} on record`;
}

function figureOf({ most }: TraceRow, label: string): VerdictFigure {
  return { label, column: { type: 'count' }, cell: most ?? null };
}
