/** The one sentence that a reviewer reads first. */
import { counted } from '../in-words.ts';
import type { Became } from './changes.ts';
import type { Reason, RiskWhy } from './risks.ts';

/** What the sentence rests on. */
interface VerdictGrounds {
  readonly counts: Readonly<Record<Became, number>>;
  readonly errors: number;
  readonly warnings: number;
  /** The riskiest first. */
  readonly risks: readonly { readonly title: string; readonly reasons: readonly Reason[] }[];
  /** Files that are only written otherwise. */
  readonly onlyWritten: number;
}

/** Reasons that are the ordinary course of business as often as not. */
const MILD: ReadonlySet<RiskWhy> = new Set(['renamed', 'old-record']);

/** Whether the change brings errors, what to look at first, or that nothing speaks against it. */
export function verdictOf(grounds: VerdictGrounds): string {
  const { errors, warnings, risks } = grounds;
  const news = [counted(errors, 'new error'), counted(warnings, 'new warning')];
  const [found = ''] = errors > 0 ? [news.join(' and ')] : [news[1]];
  const [first] = risks;
  const look = first?.reasons[0];
  if (errors > 0)
    return `Not fit to merge: ${errors > 0 && warnings > 0 ? found : (news[0] ?? '')}${after(first)}.`;
  if (first && look && !MILD.has(look.why))
    return `Look closely${warnings > 0 ? `: ${found}` : ''}${warnings > 0 ? after(first) : `: ${firstRisk(first)}`}.`;
  if (warnings > 0) return `Look closely: ${found}.`;
  return nothingAgainst(grounds);
}

function after(first: VerdictGrounds['risks'][number] | undefined): string {
  return first ? `; first of all, ${firstRisk(first)}` : '';
}

function firstRisk({ title, reasons: [first] }: VerdictGrounds['risks'][number]): string {
  return `${title}: ${first?.text ?? ''}`;
}

function nothingAgainst({ counts, onlyWritten }: VerdictGrounds): string {
  const told = countsText(counts);
  if (told !== '') return `No concerns: ${told}.`;
  if (onlyWritten === 0) return 'Nothing changed.';
  return `No concerns; only the layout of ${counted(onlyWritten, 'file')} changed.`;
}

const BECAME_WORDS: Readonly<Record<Became, string>> = {
  removed: 'removed',
  changed: 'changed',
  added: 'added',
  renamed: 'under another id',
  moved: 'in another file',
  unsound: 'no longer sound',
  sound: 'sound again',
};

const ORDER: readonly Became[] = [
  'added',
  'changed',
  'removed',
  'renamed',
  'moved',
  'unsound',
  'sound',
];

/** Counts of records in words: `3 records added, 1 changed`; empty where there are none. */
export function countsText(counts: VerdictGrounds['counts']): string {
  const there = ORDER.filter((became) => counts[became] > 0);
  return there
    .map((became, index) =>
      index === 0
        ? `${counted(counts[became], 'record')} ${BECAME_WORDS[became]}`
        : `${counts[became]} ${BECAME_WORDS[became]}`,
    )
    .join(', ');
}
