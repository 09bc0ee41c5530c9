/** The record as far as it is answered: as it will be in its file, and what it will change. */
import type { Path } from '../../read/raw.ts';

/** In its lines, this sign is where the next answer goes. */
export const PLACE = '\ue000';

/** What can be seen of a record before it is saved. */
export interface Preview {
  /** From the studio's root. */
  readonly file: string;
  readonly isNew: boolean;
  /** The lines of the file that come before it. */
  readonly above: readonly string[];
  /** The record's own lines; the sign PLACE is where the asked field goes, where it has a place. */
  readonly lines: readonly string[];
  /** What saving it changes: `mug in the studio 14 → 12`. */
  readonly effects: readonly string[];
  /** What the check would refuse in it, by field. */
  readonly problems: readonly FieldProblem[];
}

/** Something that is wrong with a field of the record, in one line. */
export interface FieldProblem {
  readonly path: Path;
  readonly message: string;
}

/** Shows the record of some answers, with the place of what is asked next. */
export type Previewer<Answered> = (
  answers: readonly Answered[],
  place: Path | undefined,
) => Preview | undefined;
