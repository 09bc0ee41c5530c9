/** Plans the quotes that are missing, and nothing else. */
import type { Finding } from '../problem.ts';
import { wholeText } from '../read/disk.ts';
import type { FileToWrite } from '../write/store.ts';
import { tidyText, type TextSpot } from '../write/tidy.ts';

/** The files that get quotes, and those that can't, each with the reason. */
export interface TidyPlan {
  readonly changes: readonly FileToWrite[];
  /** How many values and names get quotes. */
  readonly quoted: number;
  readonly left: readonly string[];
}

/** Plans quotes for everything that the check found in want of them (`needs-quotes`). */
export function planTidy(folder: string, findings: readonly Finding[]): TidyPlan {
  const byFile = new Map<string, TextSpot[]>();
  for (const { rule, at } of findings) {
    if (rule !== 'needs-quotes' || 'line' in at) continue;
    byFile.set(at.file, [...(byFile.get(at.file) ?? []), at]);
  }
  const changes: FileToWrite[] = [];
  const left: string[] = [];
  let quoted = 0;
  for (const [file, spots] of byFile) {
    const before = wholeText(folder, file) ?? '';
    const tidied = tidyText(before, spots);
    if ('refused' in tidied) left.push(`${file} was left as it is: ${tidied.refused}`);
    else if (tidied.text !== before) {
      changes.push({ file, before, after: tidied.text });
      quoted += spots.length;
    }
  }
  return { changes, quoted, left };
}
