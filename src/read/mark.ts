/** Tells whether anybody has written to a studio since it was last looked at. */
import { readSource } from './disk.ts';
import { listFiles } from './find.ts';
import { stateOf } from './state.ts';

/**
 * Looks at a studio, and gives what says later whether it is still as it is now. Files that may yet
 * change without a new stamp are told apart by what is in them; where stamps can't be had, all are.
 * @param moment now by the machine's clock, in milliseconds; 0 where that is not known
 */
export function stillAsNow(studioDir: string, moment: number): () => boolean {
  const state = stateOf(studioDir, moment);
  const look = (): string => {
    if (!state) return allTexts(studioDir);
    const stamps = stateOf(studioDir, moment)?.bytes.toString('latin1');
    return JSON.stringify([stamps, textsOf(studioDir, [...state.unsettled])]);
  };
  const before = look();
  return () => look() === before;
}

function allTexts(studioDir: string): string {
  const { files, findings } = listFiles(studioDir);
  const names = files.map(({ file }) => file);
  return JSON.stringify([names, textsOf(studioDir, names), findings]);
}

function textsOf(studioDir: string, files: readonly string[]): string[] {
  return files.map((file) => {
    const source = readSource(studioDir, file);
    return 'text' in source ? source.text : source.message;
  });
}
