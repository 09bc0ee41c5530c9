/** Reads records that are given as YAML, on standard input. */
import { FIELDS, NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Day, Kind } from '../book.ts';
import type { Finding } from '../problem.ts';
import { parseText } from '../read/yaml/parse.ts';
import { isMap, mapping, type RawMap } from '../read/raw.ts';
import { cutRecords } from '../read/records.ts';
import { emitOnScreen } from '../write/emit.ts';
import type { Refused } from '../write/parts.ts';
import { withDay } from './defaults.ts';

/** What such a text is called where its lines are shown. */
export const STANDARD_INPUT = 'standard input';

/** So many records are taken at once. */
const MOST_GIVEN = 10_000;

/** A record without an id gets one. */
export interface GivenRecord {
  readonly id: string | undefined;
  readonly fields: RawMap;
}

/** The records of a text, and what is wrong with it as YAML; with a finding there are no records. */
interface GivenRecords {
  readonly records: readonly GivenRecord[];
  readonly findings: readonly Finding[];
}

/**
 * A mapping of fields, or several records as in a file: id → record, which is what it is taken for
 * when it holds nothing but mappings, and none under the name of a field of the kind.
 */
export function readGiven(kind: Kind, text: string): GivenRecords | Refused {
  const source = { file: STANDARD_INPUT, text: withoutMark(text) };
  const { root, findings } = parseText(source, { numberKeys: NUMBER_KEYS });
  if (findings.length > 0) return { records: [], findings };
  const entries = Object.entries(root);
  if (entries.length === 0)
    return { refused: `there is no record on standard input; see saggar add ${kind} --help` };
  if (entries.length > MOST_GIVEN)
    return { refused: 'there are more than 10,000 records on standard input; give them in parts' };
  if (!isManyRecords(kind, root)) return { records: [{ id: undefined, fields: root }], findings };
  const records = entries.map(([id, value]) => ({
    id,
    fields: isMap(value) ? value : mapping([]),
  }));
  return { records, findings };
}

/** A text without its byte order mark. */
export function withoutMark(text: string): string {
  return text.startsWith('\ufeff') ? text.slice(1) : text;
}

function isManyRecords(kind: Kind, root: RawMap): boolean {
  const fields = FIELDS[kind].fields;
  return Object.entries(root).every(([key, value]) => isMap(value) && !Object.hasOwn(fields, key));
}

/** The record as it stands in the text, up to its last line with something on it; empty for none. */
export function recordIn(text: string, id: string): string {
  const plain = withoutMark(text).replaceAll('\r\n', '\n');
  const span = cutRecords(plain).records.find((record) => record.id === id);
  return span ? `${plain.slice(span.start, span.end).trimEnd()}\n` : '';
}

/**
 * The records as YAML that can be mended and given to the same command on standard input; the hint
 * stands above it as comments. They say which day they are of, for that may not be the next one's.
 */
export function typedAgain(kind: Kind, records: readonly GivenRecord[], day: Day): string {
  const dated = records.map(({ id, fields }) => ({ id, fields: withDay(kind, fields, day) }));
  const hint = `# Not saved. Correct this, save it as record.yaml, then run:\n#   saggar add ${kind} < record.yaml\n`;
  return hint + dated.map(echo).join('');
}

function echo({ id, fields }: GivenRecord): string {
  if (id !== undefined) return emitOnScreen(id, fields);
  if (Object.keys(fields).length === 0) return '{}\n';
  const lines = emitOnScreen('record', fields).split('\n').slice(1);
  return lines.map((line) => line.replace(/^ {2}/, '')).join('\n');
}
