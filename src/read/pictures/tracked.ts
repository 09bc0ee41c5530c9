/** Large pictures that git keeps: every version of them stays in the repository for good. */
import { repositoryAround } from '../git/around.ts';
import { readIndex } from '../git/index-file.ts';

const PICTURE = /\.(?:jpe?g|png|webp|heic|tiff?)$/i;
/** One MB. */
const LARGE = 1_000_000;

/** A picture in git's index. */
export interface TrackedPicture {
  /** Path from the studio's root. */
  readonly file: string;
  /** In bytes, when git last looked. */
  readonly size: number;
}

/** Pictures of a studio of over 1 MB that git has or is about to have, the largest first. Never throws. */
export function largeTracked(studioDir: string): readonly TrackedPicture[] {
  const { prefix = '', gitDir } = repositoryAround(studioDir) ?? {};
  if (gitDir === undefined) return [];
  const index = readIndex({ gitDir, idLength: 20 }) ?? readIndex({ gitDir, idLength: 32 });
  return [...(index?.entries ?? [])]
    .filter(
      ([path, { seen }]) => path.startsWith(prefix) && PICTURE.test(path) && seen.size > LARGE,
    )
    .map(([path, { seen }]) => ({ file: path.slice(prefix.length), size: seen.size }))
    .sort((a, b) => b.size - a.size);
}
