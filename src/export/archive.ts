/** Packs files into one archive; the same files give the same bytes on any day and in any time zone. */
import { Buffer } from 'node:buffer';
import { zipSync, type Zippable } from 'fflate';

/** Noon on the first day that a zip can say, by whatever clock: no file in it tells when it was packed. */
const NO_TIME = '1980-01-01T12:00:00';

/** A zip of the files, in the order of their paths. */
export function archive(files: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const paths = [...files.keys()].sort();
  const entries: Zippable = Object.fromEntries(
    paths.map((path) => [path, files.get(path) ?? new Uint8Array()]),
  );
  return zipSync(entries, { level: 6, mtime: NO_TIME });
}

/** A text, whole or in pieces, as it stands in a file. */
export function encoded(text: string | Iterable<string>): Uint8Array {
  return Buffer.concat(
    (typeof text === 'string' ? [text] : [...text]).map((each) => Buffer.from(each)),
  );
}
