/** Puts a text back as it was, byte for byte: the lines that a change took out, or all lines of a record. */
import { isMap, mapping, withValue, type RawMap } from '../read/raw.ts';
import { pastOwnComments } from './block.ts';
import { applyEdits, columnOf, lineStart, pastLine } from './lines.ts';
import { layoutOf, type Refused } from './parts.ts';
import { follow, verified, type Spliced } from './trail.ts';

/** Whole lines of a text, and the number of the first of them. */
export interface TakenLines {
  readonly line: number;
  readonly text: string;
}

/** The lines that a change took out; undefined where it did anything else. */
export function takenLines(before: string, after: string): TakenLines | undefined {
  const old = inLines(before);
  const kept = inLines(after);
  const first = kept.findIndex((line, at) => line !== old[at]);
  const at = first < 0 ? kept.length : first;
  const text = old.slice(at, at + old.length - kept.length).join('');
  const taken = { line: at + 1, text };
  return withLines(after, taken) === before ? taken : undefined;
}

function inLines(text: string): string[] {
  return text === '' ? [] : text.split(/(?<=\n)/);
}

function withLines(text: string, { line, text: taken }: TakenLines): string {
  return inLines(text)
    .toSpliced(line - 1, 0, taken)
    .join('');
}

/** Puts lines back before a line; refused where what is there would read otherwise then. */
export function putLinesBack(text: string, taken: TakenLines): Spliced {
  const changed = withLines(text, taken);
  const [file, then] = [layoutOf(text), layoutOf(changed)];
  if ('refused' in file) return file;
  if ('refused' in then) return { refused: `the file would not be sound: ${then.refused}` };
  const old = isMap(file.content) ? file.content : mapping([]);
  const left = isMap(then.content) ? Object.entries(then.content) : [];
  const others = mapping(left.filter(([id]) => Object.hasOwn(old, id)));
  return JSON.stringify(others) === JSON.stringify(old)
    ? { text: changed }
    : { refused: `line ${taken.line} is inside another record now` };
}

/** All lines of a record, with the comments that belong to it; in braces what is between two commas. */
export function linesOfRecord(text: string, id: string): string | undefined {
  const span = spanOf(text, id);
  return 'refused' in span ? undefined : text.slice(span.start, span.end);
}

/** Puts the lines of a record in the place of those that it has. */
export function putRecordBack(text: string, id: string, lines: string): Spliced {
  const span = spanOf(text, id);
  if ('refused' in span) return span;
  const given = layoutOf(span.inBraces ? `{${lines}}` : lines);
  if ('refused' in given) return given;
  const record = isMap(given.content) ? Object.entries(given.content) : [];
  const [only, ...others] = record;
  if (only?.[0] !== id || others.length > 0)
    return { refused: `standard input does not hold ${id} alone` };
  const changed = applyEdits(text, [{ ...span, text: lines }]);
  return verified(changed, withValue(span.content, [id], only[1]));
}

interface RecordSpanIn {
  readonly start: number;
  readonly end: number;
  readonly inBraces: boolean;
  readonly content: RawMap;
}

function spanOf(whole: string, id: string): RecordSpanIn | Refused {
  const file = layoutOf(whole);
  if ('refused' in file) return file;
  const { content, mark, text } = file;
  const { groups, entries } = follow(file.root, [id]);
  const [group, entry] = [groups[0], entries[0]];
  if (!group || !entry || !isMap(content))
    return { refused: `there is no record ${id} in the file` };
  const own = group.flow
    ? { start: entry.start, end: entry.end }
    : {
        start: lineStart(text, entry.start),
        end: pastOwnComments(text, pastLine(text, entry.end), columnOf(text, entry.start)),
      };
  return {
    start: own.start + mark.length,
    end: own.end + mark.length,
    inBraces: group.flow,
    content,
  };
}
