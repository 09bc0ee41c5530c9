/** What would be refused in the lines of a list, each of them once, where they stand in it. */
import type { Kind } from '../book.ts';
import type { Problem } from '../problem.ts';
import { isList, valueAt, withValue, type Path, type Raw, type RawMap } from '../read/raw.ts';
import { expandRecord } from './expand.ts';
import { fieldOptions, type FieldOption } from './fields.ts';
import { lexiconOf } from './lexicon.ts';
import { placeInList, type LineList } from './line-list.ts';
import type { OpenedStudio } from './plan.ts';
import { draftId, lookAtDraft } from './questions/draft.ts';
import { openFaults } from './which-ware.ts';

/** A record whose lines come first from a list; without one nothing is wrong with it here. */
interface ListedRecords {
  readonly kind: Kind;
  readonly records: readonly { readonly fields: RawMap }[];
  readonly list?: LineList | undefined;
}

/** The problems of all lines, in their order: those that can't be read, and of the others what the check says. */
export function problemsInList(
  opened: OpenedStudio,
  { kind, records, list }: ListedRecords,
): readonly Problem[] {
  const [record] = records;
  if (!list || !record) return [];
  return problemsOf(opened, { kind, fields: record.fields, list }).sort(
    (one, other) => one.place.line - other.place.line,
  );
}

interface ListedRecord {
  readonly kind: Kind;
  readonly fields: RawMap;
  readonly list: LineList;
}

/** A line that is refused: its path in the record, and what is said of it. */
interface RefusedLine extends Pick<Problem, 'rule' | 'message' | 'hint'> {
  readonly path: Path;
  readonly start?: number;
  readonly width?: number;
}

// What can't be read is left out before the rest is looked at, so that one look finds all of it.
function problemsOf(opened: OpenedStudio, listed: ListedRecord): Problem[] {
  const { kind, list } = listed;
  const refused = refusedIn(opened, listed);
  const sites = new Map(
    refused
      .map((line) => [siteIn(kind, line.path), line] as const)
      .reverse()
      .flatMap(([site, line]) =>
        site ? [[`${site.option.name} ${site.turn}`, { site, line }] as const] : [],
      ),
  );
  const found = [...sites.values()].flatMap(({ site, line }): Problem[] => {
    const { rule, message, hint, start, width } = line;
    const within = start === undefined || width === undefined ? undefined : { start, width };
    const place = placeInList(list, { option: site.option.name, turn: site.turn }, within);
    return place ? [{ rule, severity: 'error', place, message, hint, related: [] }] : [];
  });
  if (found.length === 0) return [];
  const left = withoutLines(
    listed,
    [...sites.values()].map(({ site }) => site),
  );
  return [...found, ...problemsOf(opened, left)];
}

function refusedIn(
  opened: OpenedStudio,
  { kind, fields: typed }: ListedRecord,
): readonly RefusedLine[] {
  const ground = { lexicon: lexiconOf(opened.reading.files), day: opened.asOf };
  const { fields, faults } = expandRecord(kind, typed, ground);
  if (faults.length > 0) return faults;
  const open = openFaults(opened.book, kind, { typed, fields });
  if (open.length > 0) return open;
  const id = draftId(kind);
  const { findings } = lookAtDraft(opened, { kind, id, fields });
  return findings.flatMap(({ at, severity, ...said }) =>
    severity === 'error' && 'path' in at && at.path[0] === id
      ? [{ ...said, path: at.path.slice(1) }]
      : [],
  );
}

/** The option that takes a list, and one of its items by its turn. */
interface ItemSite {
  readonly option: FieldOption;
  readonly turn: number;
}

function siteIn(kind: Kind, path: Path): ItemSite | undefined {
  const fits = (own: Path): boolean => own.every((step, index) => step === path[index]);
  const option = fieldOptions(kind).find((each) => each.repeats && fits(each.path));
  const turn = option && path[option.path.length];
  return option && typeof turn === 'number' ? { option, turn } : undefined;
}

function withoutLines(
  { kind, fields, list }: ListedRecord,
  sites: readonly ItemSite[],
): ListedRecord {
  const isOut = (name: string, turn: number): boolean =>
    sites.some(({ option, turn: out }) => option.name === name && out === turn);
  const lines = list.lines.filter((line) => {
    const same = list.lines.filter(({ option }) => option === line.option);
    return !isOut(line.option, same.indexOf(line));
  });
  const options = new Map(sites.map(({ option }) => [option.name, option]));
  const left = [...options.values()].reduce((record: Raw, { name, path }) => {
    const items = valueAt(record, path);
    if (!isList(items)) return record;
    return withValue(
      record,
      path,
      items.filter((_, turn) => !isOut(name, turn)),
    );
  }, fields);
  return { kind, fields: left as RawMap, list: { ...list, lines } };
}
