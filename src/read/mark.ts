/** Tells whether anybody has written to a studio since it was last looked at. */
import { isSettled, readSource, stampOf } from './disk.ts';
import { listFiles, type ListedFile } from './find.ts';

/**
 * Looks at a studio, and gives what says later whether it is still as it is now. Files that may yet
 * change without a new stamp, and links, are told apart by what is in them.
 * @param moment now by the machine's clock, in milliseconds; 0 where that is not known
 */
export function stillAsNow(studioDir: string, moment: number): () => boolean {
  const look = (): string => {
    const { files, findings } = listFiles(studioDir);
    return JSON.stringify([files.map((listed) => stateOf(studioDir, listed, moment)), findings]);
  };
  const before = look();
  return () => look() === before;
}

function stateOf(studioDir: string, { file, linked }: ListedFile, moment: number): unknown {
  const stamp = linked ? undefined : stampOf(`${studioDir}/${file}`);
  if (stamp && isSettled(stamp, moment)) return [file, stamp];
  const source = readSource(studioDir, file);
  return [file, stamp, 'text' in source ? source.text : source.message];
}
