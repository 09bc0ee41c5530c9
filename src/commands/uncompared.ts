/** Says which files could not be compared with what git has, since git would have to run something. */
import type { OnDisk } from '../read/git/on-disk.ts';

/** One sentence a file, without a full stop. */
export function uncomparedTexts(uncompared: OnDisk['uncompared']): readonly string[] {
  return [...uncompared].map(
    ([file, through]) =>
      `${file} can't be compared with what git has of it: git passes it through ${through}, which is never run here`,
  );
}
