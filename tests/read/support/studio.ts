/** A small studio on disk, read and remembered. */
import { readStudio, type Reading, type StudioOptions } from '../../../src/read/read.ts';
import { storeIn } from '../../helpers/memory.ts';
import { folderWith } from './folder.ts';
import { sure } from './outline.ts';

export const UNREMEMBERED = { memory: NO_MEMORY };

export const STUDIO: Readonly<Record<string, string>> = {
  'studio.yaml': 'format: 1\nname: Kiln Lane\ncurrency: EUR\n',
  'sales/2026-03.yaml': 's1:\n  date: 2026-03-08\ns2:\n  date: 2026-03-09\n',
  'sales/2026-04.yaml': 's3: {date: 2026-04-01}\n',
  'spent.yaml': 'x1:\n  amount: 12.50\n  note: |\n    two\n    lines\n',
};

export const FILES: readonly string[] = Object.keys(STUDIO).sort();

export async function read(
  folder: string,
  options: StudioOptions = remembering(folder),
): Promise<Reading> {
  return sure(await readStudio(folder, options));
}

/** With the memory of a version of the program. */
export function remembering(folder: string, version = 'v1'): StudioOptions {
  return { store: storeIn(folder, version) };
}

/** A studio that was read, found clean in all its files but those given, and remembered. */
export async function remembered(
  files: Readonly<Record<string, string>> = STUDIO,
  unclean: readonly string[] = [],
): Promise<string> {
  const folder = folderWith(files);
  const reading = await read(folder);
  reading.remember(reading.files.map(({ file }) => file).filter((file) => !unclean.includes(file)));
  return folder;
}
