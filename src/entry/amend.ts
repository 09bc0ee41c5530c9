/** Plans changes of a record that is in a file, value by value. */
import type { Day } from '../book.ts';
import type { Raw, RawMap } from '../read/raw.ts';
import { wholeText } from '../read/whole.ts';
import type { Refused } from '../write/parts.ts';
import { removeField, setField, type Spliced } from '../write/splice.ts';
import type { Amendment } from './amendment.ts';
import { isNumberKey } from './echo.ts';
import { isList, isMap, valueAt, withValue, type Path } from './at-path.ts';
import { withDefaults } from './defaults.ts';
import { lexiconOf, type Lexicon, type Named } from './lexicon.ts';
import { planEdits, type OpenedStudio, type Plan } from './plan.ts';

/** A plan to amend a record. */
export interface AmendPlan extends Plan {
  readonly record: Named;
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
  record: Named,
  amendments: readonly Amendment[],
): Promise<AmendPlan | Refused> {
  const { id, kind, file } = record;
  const before = wholeText(opened.folder, file);
  if (before === undefined) return { refused: `${file} is gone; run the command again` };
  const whole = filledIn(record, amendments, opened);
  let text = before;
  for (const step of stepsOf(record, whole)) {
    const spliced = spliceStep(text, [id, ...step.path], step.value);
    if ('refused' in spliced) return { refused: `${file} was left as it is: ${spliced.refused}` };
    text = spliced.text;
  }
  if (text === before) return { refused: `${id} says all this already; nothing was changed` };
  const files = [{ file, kind, before, after: text }];
  const plan = await planEdits(opened, { files, touched: [{ kind, id }] });
  return { ...plan, record, text };
}

/** Changes to a new item of a list get what a new record gets: the price of what is sold, a date. */
function filledIn(
  record: Named,
  amendments: readonly Amendment[],
  { reading, asOf }: OpenedStudio,
): readonly Amendment[] {
  if (!amendments.some(({ value }) => isMap(value))) return amendments;
  const lexicon = lexiconOf(reading.files);
  const changed = amendments.reduce<Raw>(
    (raw, { path, value }) => (value === undefined ? raw : withValue(raw, path, value)),
    record.raw,
  );
  return isMap(changed) ? completed({ record, amendments, changed }, lexicon, asOf) : amendments;
}

function completed(
  {
    record,
    amendments,
    changed,
  }: {
    readonly record: Named;
    readonly amendments: readonly Amendment[];
    readonly changed: RawMap;
  },
  lexicon: Lexicon,
  day: Day,
): readonly Amendment[] {
  const whole = withDefaults(record.kind, changed, { lexicon, day });
  return amendments.map((each) => {
    const value = isMap(each.value) ? valueAt(whole, each.path) : each.value;
    return value === undefined ? each : { ...each, value };
  });
}

/** The changes in an order in which no index moves under another. */
function stepsOf(record: Named, amendments: readonly Amendment[]): readonly Amendment[] {
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
    left = without(left, step.path);
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

function without(whole: Raw, path: Path): Raw {
  const holder = path.slice(0, -1);
  const last = path.at(-1);
  const held = valueAt(whole, holder);
  if (isList(held))
    return withValue(
      whole,
      holder,
      held.filter((_, index) => index !== last),
    );
  if (!isMap(held)) return whole;
  const rest = Object.entries(held).filter(([key]) => key !== last);
  return withValue(whole, holder, Object.fromEntries(rest));
}

function lastFirst(a: Path, b: Path): number {
  for (const [index, step] of a.entries()) {
    const other = b[index];
    if (step === other) continue;
    return typeof step === 'number' && typeof other === 'number' ? other - step : 0;
  }
  return 0;
}

function spliceStep(text: string, path: Path, value: Raw | undefined): Spliced {
  if (value === undefined) return removeField(text, path);
  return setField(text, path, { value, isNumberKey });
}
