/** The line on which each record begins, from just the files that the records are in. */
import { grouped } from '../grouping.ts';
import { readSource } from './disk.ts';
import { placeOf } from './lines.ts';
import { cutRecords } from './records.ts';

/** A record by its id, and its file from the studio's root. */
export interface Located {
  readonly id: string;
  readonly file: string;
}

/**
 * Id → the line of its key, from 1, as the file is now. A record that doesn't stand at its file's margin
 * in so many letters (a quoted key, a file that is one mapping in braces) is looked up in the parsed
 * file. Records of a file that can't be read any more have no line.
 */
export async function recordLines(
  studioDir: string,
  records: Iterable<Located>,
): Promise<ReadonlyMap<string, number>> {
  const found = new Map<string, number>();
  for (const [file, those] of grouped(records, (each) => each.file)) {
    const source = readSource(studioDir, file);
    const ids = those.map(({ id }) => id);
    if ('text' in source) await findIn({ file, text: source.text }, ids, found);
  }
  return found;
}

interface SourceFile {
  readonly file: string;
  readonly text: string;
}

async function findIn(
  { file, text }: SourceFile,
  ids: readonly string[],
  found: Map<string, number>,
): Promise<void> {
  const starts = new Map(cutRecords(text).records.map(({ id, start }) => [id, start]));
  const hidden = ids.filter((id) => !starts.has(id));
  for (const id of ids) {
    const start = starts.get(id);
    if (start !== undefined) found.set(id, placeOf(file, text, { start, end: start }).line);
  }
  if (hidden.length === 0) return;
  const { placesIn } = await import('./spots.ts');
  const placeIn = placesIn(file, text);
  for (const id of hidden) found.set(id, placeIn({ file, path: [id], on: 'key' }).line);
}
