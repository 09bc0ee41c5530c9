/** What tells whether anybody has written to a studio since it was last looked at. */
import { readSource } from './disk.ts';
import { listFiles } from './find.ts';
import { stateOf } from './state.ts';

/** A mark of the state that a studio's files are in; where that can't be told, of all that is in them. */
export function markOf(studioDir: string): string {
  const state = stateOf(studioDir);
  return state ? state.bytes.toString('latin1') : textsOf(studioDir);
}

function textsOf(studioDir: string): string {
  const { files, findings } = listFiles(studioDir);
  const texts = files.map(({ file }) => {
    const source = readSource(studioDir, file);
    return [file, 'text' in source ? source.text : source.message];
  });
  return JSON.stringify([texts, findings]);
}
