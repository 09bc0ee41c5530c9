/** Packs files into one archive; the same files give the same bytes on any day and in any time zone. */
import { zipSync, type Zippable } from 'fflate';

/** Noon on the first day that a zip can say, by whatever clock: no file in it tells when it was packed. */
const NO_TIME = '1980-01-01T12:00:00';

/** A zip of the files, in the order of their paths. */
export function archive(files: ReadonlyMap<string, string>): Uint8Array {
  const encoder = new TextEncoder();
  const paths = [...files.keys()].sort();
  const entries: Zippable = Object.fromEntries(
    paths.map((path) => [path, encoder.encode(files.get(path) ?? '')]),
  );
  return zipSync(entries, { level: 6, mtime: NO_TIME });
}
