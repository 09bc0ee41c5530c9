/** The one sentence that a reviewer reads first. */
import { countOf } from '../fold.ts';
import { counted } from '../in-words.ts';
import type { Severity } from '../problem.ts';
import type { Became } from './changes.ts';
import type { Reason } from './reasons.ts';

/** What the sentence rests on. */
interface VerdictGrounds {
  readonly counts: Readonly<Record<Became, number>>;
  /** Problems that are new, the worst first. */
  readonly problems: readonly NewProblem[];
  /** The riskiest first. */
  readonly risks: readonly { readonly title: string; readonly reasons: readonly Reason[] }[];
  /** Files that are only written otherwise. */
  readonly onlyWritten: number;
}

interface NewProblem {
  readonly severity: Severity;
  readonly at: string;
  readonly message: string;
  readonly untold?: number;
}

/** The worst thing by name: the first error, else the first risk, else the first warning; or that nothing is. */
export function verdictOf(grounds: VerdictGrounds): string {
  const { problems, risks } = grounds;
  const errors = problems.filter(({ severity }) => severity === 'error');
  const [error] = errors;
  if (error) return `Not fit to merge: ${error.message}${others(countOf(errors), 'new error')}.`;
  const [risk] = risks;
  if (risk) return `Look closely: ${firstRisk(risk)}${others(risks.length, 'thing')}.`;
  const [warning] = problems;
  if (warning)
    return `Look closely: ${warning.message} (${warning.at})${others(countOf(problems), 'new warning')}.`;
  return nothingAgainst(grounds);
}

function others(count: number, what: string): string {
  return count < 2 ? '' : `; and ${counted(count - 1, `other ${what}`)}`;
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
