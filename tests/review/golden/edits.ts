/** How an invented pull request edits the files of a studio. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** What a branch does in the studio's folder. */
export type Work = (folder: string) => void;

/** Puts other words in the place of some; throws where the words are not there. */
export function edit(folder: string, file: string, [from, to]: readonly [string, string]): void {
  const path = join(folder, file);
  const text = readFileSync(path, 'utf8');
  if (!text.includes(from)) throw new Error(`no "${from}" in ${file}`);
  writeFileSync(
    path,
    text.replace(from, () => to),
  );
}

/** Puts a record at the end of a file. */
export function append(folder: string, file: string, record: string): void {
  const path = join(folder, file);
  writeFileSync(path, `${readFileSync(path, 'utf8').trimEnd()}\n\n${record}`);
}

/** The lines of a record with the empty one behind it. */
export function recordIn(folder: string, file: string, id: string): string {
  const text = readFileSync(join(folder, file), 'utf8');
  const [record] = new RegExp(`^${id}:\n(?:[ ].*\n)*\n?`, 'm').exec(text) ?? [];
  if (record === undefined) throw new Error(`no ${id} in ${file}`);
  return record;
}
