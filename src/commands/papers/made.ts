/** What making a paper gives. */
import type { LabelPaper, Paper } from '../../report/papers/paper.ts';

/** A paper, and what whoever prints it should know. */
export interface MadePaper {
  readonly paper: Paper | LabelPaper;
  readonly notes: readonly string[];
}
