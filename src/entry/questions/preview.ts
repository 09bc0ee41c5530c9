/** The record as far as it is answered: as it will be in its file, and what it will change. */
import { cachedFor } from '../../once.ts';
import type { Path } from '../../read/raw.ts';
import type { Answer } from './question.ts';

/** In the lines of a record, this sign is where the next answer goes. */
export const PLACE = '\ue000';

/** A record in its file. */
export interface ShownRecord {
  /** From the studio's root. */
  readonly file: string;
  readonly isNew: boolean;
  /** The lines of the file that come before it. */
  readonly above: readonly string[];
  /** The record's own lines; the sign PLACE is where the asked field goes, where it has a place. */
  readonly lines: readonly string[];
}

/** What comes of saving it. */
export interface EntryOutlook {
  /** What it changes: `mug in the studio 14 → 12`. */
  readonly effects: readonly string[];
  /** What the check would refuse in it, by field. */
  readonly problems: readonly FieldProblem[];
}

/** Something that is wrong with a field of the record, in one line. */
export interface FieldProblem {
  readonly path: Path;
  readonly message: string;
}

/** Shows what answers come to. */
export interface Preview {
  /** Cheap, for it is asked with each place that is looked at; undefined where there is no record yet. */
  readonly record: (answers: readonly Answer[], place: Path | undefined) => ShownRecord | undefined;
  /** Asked once for each answer. */
  readonly outlook: (answers: readonly Answer[]) => EntryOutlook;
}

export const NO_OUTLOOK: EntryOutlook = { effects: [], problems: [] };

/** A record in the new text of its file; undefined where it is not in it as lines of its own. */
export function recordInFile(
  { file, isNew }: Pick<ShownRecord, 'file' | 'isNew'>,
  { text, id }: { readonly text: string; readonly id: string },
): ShownRecord | undefined {
  const lines = text.replaceAll('\r\n', '\n').split('\n');
  const start = lines.findIndex((line) => line.trimStart().startsWith(`${id}:`));
  if (start < 0) return undefined;
  const margin = (line: string): number => line.length - line.trimStart().length;
  const column = margin(lines[start] ?? '');
  const rest = lines.slice(start + 1);
  const length = rest.findIndex((line) => line.trim() !== '' && margin(line) <= column);
  const own = (length < 0 ? rest : rest.slice(0, length)).join('\n').trimEnd();
  return {
    file,
    isNew,
    above: lines.slice(0, start),
    lines: [lines[start] ?? '', ...(own === '' ? [] : own.split('\n'))].flatMap(inBlock),
  };
}

/** What is typed into a list is a line of its own, also where it is the only one so far. */
function inBlock(line: string): readonly string[] {
  const [, margin = '', key] = /^( *)(.*): \[\ue000\]$/u.exec(line) ?? [];
  // The next entry of a mapping has neither a name nor a value yet.
  return key === undefined
    ? [line.replace(/(\ue000): (?:''|"")/u, '$1')]
    : [`${margin}${key}:`, `${margin}  - ${PLACE}`];
}

/** The same preview, which does no work again for what it was asked last. */
export function keptPreview({ record, outlook }: Preview): Preview {
  const places = new WeakMap<readonly Answer[], Map<string, ShownRecord | undefined>>();
  return {
    outlook: cachedFor(outlook),
    record: (answers, place) => {
      const known = places.get(answers) ?? new Map<string, ShownRecord | undefined>();
      places.set(answers, known);
      const key = JSON.stringify(place ?? null);
      if (!known.has(key)) known.set(key, record(answers, place));
      return known.get(key);
    },
  };
}
