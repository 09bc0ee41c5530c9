/** Plans changes of a record that is in a file, value by value. */
import type { Day, Kind } from '../book.ts';
import { wholeText } from '../read/disk.ts';
import {
  isMap,
  valueAt,
  withValue,
  withoutValue,
  type Path,
  type Raw,
  type RawMap,
} from '../read/raw.ts';
import type { Refused } from '../write/parts.ts';
import { insertItem, removeField, setField } from '../write/splice.ts';
import type { Spliced } from '../write/trail.ts';
import type { Amendable, Amendment } from './amendment.ts';
import { withDefaults } from './defaults.ts';
import { lexiconOf, type Lexicon } from './lexicon.ts';
import { planEdits, type ChangePlan, type OpenedStudio } from './plan.ts';

/** A plan to amend a record. */
export interface AmendPlan extends ChangePlan {
  readonly record: Amendable;
  /** The file's text with the changes made. */
  readonly text: string;
}

/**
 * Plans changes of one record. List items are counted as they stand before any of the changes; what
 * is set is set in the order given, and what is taken out goes last. A list or mapping that would be
 * left empty goes as a whole. Refused where a change has no place, or would change nothing.
 */
export async function planAmend(
  opened: OpenedStudio,
  record: Amendable,
  amendments: readonly Amendment[],
): Promise<AmendPlan | Refused> {
  const { id, kind, file } = record;
  const before = wholeText(opened.folder, file);
  if (before === undefined) return { refused: `${file} is gone; run the command again` };
  const spliced = amendText(before, record, filledIn(record, amendments, opened));
  if ('refused' in spliced) return spliced;
  const { text } = spliced;
  if (text === before)
    return { refused: `${id || file} says all this already; nothing was changed` };
  const files = [{ file, kind, before, after: text }];
  const touched = kind === 'studio' ? [] : [{ kind, id }];
  const plan = await planEdits(opened, { files, touched });
  return { ...plan, record, text };
}

/** The settings have no id: their fields stand at the file's margin. */
function pathIn({ id }: Amendable, path: Path): Path {
  return id === '' ? path : [id, ...path];
}

/** The text of a record's file with changes made in the record. */
export function amendText(
  before: string,
  record: Amendable,
  amendments: readonly Amendment[],
): { readonly text: string } | Refused {
  const { file } = record;
  let text = before;
  for (const step of stepsOf(record, amendments)) {
    const spliced = spliceStep(text, { ...step, path: pathIn(record, step.path) });
    if ('refused' in spliced) return { refused: `${file} was left as it is: ${spliced.refused}` };
    text = spliced.text;
  }
  return { text };
}

/** Changes to a new item of a list get what a new record gets: the price of what is sold, a date. */
function filledIn(
  record: Amendable,
  amendments: readonly Amendment[],
  { reading, asOf }: OpenedStudio,
): readonly Amendment[] {
  const { kind, raw: now } = record;
  const isFilled = kind !== 'studio' && amendments.some(({ value }) => isMap(value));
  if (!isFilled || amendments.some(({ isNew }) => isNew)) return amendments;
  const lexicon = lexiconOf(reading.files);
  const changed = amendments.reduce<Raw>(
    (raw, { path, value }) => (value === undefined ? raw : withValue(raw, path, value)),
    now,
  );
  return isMap(changed) ? completed({ kind, amendments, changed }, lexicon, asOf) : amendments;
}

function completed(
  {
    kind,
    amendments,
    changed,
  }: {
    readonly kind: Kind;
    readonly amendments: readonly Amendment[];
    readonly changed: RawMap;
  },
  lexicon: Lexicon,
  day: Day,
): readonly Amendment[] {
  const whole = withDefaults(kind, changed, { lexicon, day });
  return amendments.map((each) => {
    const value = isMap(each.value) ? valueAt(whole, each.path) : each.value;
    return value === undefined ? each : { ...each, value };
  });
}

/** The changes in an order in which no index moves under another. */
function stepsOf(record: Amendable, amendments: readonly Amendment[]): readonly Amendment[] {
  const sets = amendments.filter(({ value }) => value !== undefined);
  const removals = amendments.filter(({ value }) => value === undefined);
  const changed = sets.reduce<Raw>(
    (raw, { path, value }) => withValue(raw, path, value ?? ''),
    record.raw,
  );
  const paths = removals.map(({ path }) => path).sort(lastFirst);
  return [...sets, ...removalSteps(changed, paths)];
}

function removalSteps(whole: Raw, paths: readonly Path[]): readonly Amendment[] {
  let left = whole;
  return paths.map((path) => {
    const step = { path: emptiedAbove(left, path) };
    left = withoutValue(left, step.path);
    return step;
  });
}

/** The path itself, or that of the outermost list or mapping that holds nothing else. */
function emptiedAbove(whole: Raw, path: Path): Path {
  const holder = path.slice(0, -1);
  if (holder.length === 0) return path;
  const held = valueAt(whole, holder);
  const count = held === undefined || typeof held === 'string' ? 0 : Object.keys(held).length;
  return count === 1 && valueAt(whole, path) !== undefined ? emptiedAbove(whole, holder) : path;
}

function lastFirst(a: Path, b: Path): number {
  for (const [index, step] of a.entries()) {
    const other = b[index];
    if (step === other) continue;
    return typeof step === 'number' && typeof other === 'number' ? other - step : 0;
  }
  return 0;
}

function spliceStep(text: string, { path, value, isNew = false }: Amendment): Spliced {
  if (value === undefined) return removeField(text, path);
  return isNew ? insertItem(text, path, value) : setField(text, path, value);
}
