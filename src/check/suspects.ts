/** The quick look at a file's records: which of them may have faults. */
import { PATTERNS } from '../../schema/generated/fields.js';
import { textValidators } from '../../schema/generated/text.js';
import type { RawFile } from '../read/raw.ts';

/** What an id looks like. */
export const ID = new RegExp(PATTERNS['id'] ?? '', 'u');

/** Stands for the whole of `studio.yaml` where other files have record ids. */
const SETTINGS = '';

/** Ids of the records, or the settings, that need a second look: all others are sound. */
export function suspectsIn(file: RawFile): readonly string[] {
  return file.kind === 'studio' ? suspectSettings(file) : suspectRecords(file);
}

function suspectSettings({ root, odd }: RawFile): string[] {
  return odd || !textValidators.studio(root) ? [SETTINGS] : [];
}

// Where nothing is odd, a record whose texts are sound needs no second look.
function suspectRecords({ kind, root, odd }: RawFile): string[] {
  const isSound = textValidators[kind];
  return Object.keys(root).filter((id) => odd || !ID.test(id) || !isSound(root[id]));
}
