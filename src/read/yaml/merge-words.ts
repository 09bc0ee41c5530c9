/** What is said of lines that a merge left in two versions: whose they are, and how to settle them. */
import type { Finding, Place } from '../../problem.ts';
import type { Conflict, Unsettled, MergeVersion } from './conflicts.ts';
import { valueWords, type Difference } from './differences.ts';
import { SETTINGS_FILE } from '../kinds.ts';
import { placeInText, type TextSpan } from '../lines.ts';
import { pathWords } from '../../in-words.ts';
import type { FileText } from '../raw.ts';

/** A record, or a setting, that the two sides of a merge do not have alike. */
export interface Disputed {
  readonly id: string;
  readonly inOurs: boolean;
  readonly inTheirs: boolean;
  readonly differences: readonly Difference[];
}

/** A conflict, and what it is about. */
export interface Meeting {
  readonly conflict: Conflict;
  readonly records: readonly Disputed[];
  /** Whether on each side whole records stand between the markers, or nothing. */
  readonly isWhole: boolean;
}

const RULE = { rule: 'merge-conflict', severity: 'error' } as const;

/** A marker that has lost its partners. */
export function strayFinding({ file, text }: FileText, stray: TextSpan): Finding {
  const sign = text.slice(stray.start, stray.start + 7);
  return {
    ...RULE,
    at: placeInText(file, text, stray),
    message: `a line ${sign} of a merge is here without the others of its kind`,
    hint: 'see whether the lines around it are right, and delete this one',
  };
}

/** More markers than can be told one by one: where the first one is, and how many there are. */
export function manyFinding({ file, text }: FileText, { conflicts, strays }: Unsettled): Finding {
  const [first, second] = [conflicts[0]?.opening, strays[0]];
  const isEarlier = first && (second === undefined || first.start < second.start);
  const count = conflicts.length + strays.length;
  return {
    ...RULE,
    at: placeInText(file, text, (isEarlier ? first : second) ?? { start: 0, end: 0 }),
    message: `a merge is not settled in ${count} places of this file, so none of it is read`,
    hint: 'settle them one after the other, or take the whole file of one side with git',
  };
}

/** Two versions of some lines: what each side has, and how to settle it. */
export function mergeFinding(source: FileText, meeting: Meeting): Finding {
  const { conflict } = meeting;
  return {
    ...RULE,
    at: placeInText(source.file, source.text, conflict.opening),
    message: messageOf(source.file, meeting),
    hint: hintOf(source.file, meeting),
    related: [
      { at: firstLine(source, conflict.ours), message: sideWords(meeting, 'ours') },
      { at: firstLine(source, conflict.theirs), message: sideWords(meeting, 'theirs') },
    ],
  };
}

/** The place of a version's first line of content; of the marker behind it where it has none. */
function firstLine({ file, text }: FileText, { lines }: MergeVersion): Place {
  const blank = /^(?:[ \t]*\r?\n)*[ \t]*/.exec(text.slice(lines.start, lines.end))?.[0] ?? '';
  const start = lines.start + blank.length;
  const end = text.indexOf('\n', start);
  return placeInText(file, text, { start, end: end < 0 ? text.length : end });
}

function messageOf(file: string, { conflict, records }: Meeting): string {
  const { ours, theirs } = conflict;
  const both = records.filter(({ inOurs, inTheirs }) => inOurs && inTheirs);
  if (records.length === 0)
    return `two versions of the file meet here, of ${ours.label} and ${theirs.label}`;
  if (both.length < records.length)
    return `${ours.label} has ${idsInSide(records, 'inOurs')} here, and ${theirs.label} has ${idsInSide(records, 'inTheirs')}`;
  const ids = listed(both.map(({ id }) => id));
  const paths = both.flatMap(({ differences }) => differences.map(({ path }) => pathWords(path)));
  const fields = [...new Set(paths)].filter((path) => path !== '');
  const what = file === SETTINGS_FILE ? `the setting ${ids}` : ids;
  const where = fields.length === 0 ? '' : ` and differ in ${listed(someOf(fields))}`;
  return `two versions of ${what} meet here${where}`;
}

function idsInSide(records: readonly Disputed[], side: 'inOurs' | 'inTheirs'): string {
  const ids = records.filter((record) => record[side]).map(({ id }) => id);
  return ids.length === 0 ? 'nothing' : listed(ids);
}

function hintOf(file: string, { conflict, records, isWhole }: Meeting): string {
  const lines = `the lines <<<<<<<, ${conflict.hasBase ? '|||||||, ' : ''}======= and >>>>>>>`;
  const base = conflict.hasBase ? ' and what is from ||||||| to =======' : '';
  if (records.every(({ inOurs, inTheirs }) => inOurs === inTheirs))
    return `keep the lines that are right, and delete the others and ${lines}`;
  if (!isWhole)
    return `lines outside the markers belong to these too, so don't just delete the markers; this shows each whole: git checkout --conflict=diff3 -- "${file}"`;
  return `to keep all that is here, delete just ${lines}${base}; else delete what is to go as well`;
}

function sideWords({ conflict, records }: Meeting, which: 'ours' | 'theirs'): string {
  const { label } = conflict[which];
  const present = which === 'ours' ? 'inOurs' : 'inTheirs';
  const said = records.filter((record) => record[present]);
  if (records.length === 0) return `the lines of ${label}`;
  if (said.length === 0) return `${label} has nothing here`;
  return `${label} has ${said.map((record) => recordWords(record, which)).join(', and ')}`;
}

function recordWords({ id, differences }: Disputed, which: 'ours' | 'theirs'): string {
  const [only] = differences;
  if (only?.path.length === 0)
    return only[which] === undefined
      ? `${id}, which can't be read`
      : `${id}: ${valueWords(only[which])}`;
  const values = differences.map(({ path, [which]: value }) =>
    value === undefined ? `no ${pathWords(path)}` : `${pathWords(path)}: ${valueWords(value)}`,
  );
  return values.length === 0 ? id : `${id} with ${someOf(values).join('; ')}`;
}

const MOST = 4;

function someOf(words: readonly string[]): readonly string[] {
  const more = words.length - MOST;
  return more > 1 ? [...words.slice(0, MOST), `${more} more`] : words;
}

function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}
