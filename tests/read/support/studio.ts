/** A small studio on disk, read and remembered. */
import { NO_MEMORY, openMemory } from '../../../src/read/kept/memory.ts';
import {
  readStudio,
  type CleanFile,
  type StudioReading,
  type StudioOptions,
} from '../../../src/read/read.ts';
import { storeIn } from '../../helpers/memory.ts';
import { folderWith } from './folder.ts';
import { sure } from './outline.ts';
import { takeIn } from '../../../src/check/taken.ts';

export const UNREMEMBERED = { memory: NO_MEMORY };

export const STUDIO: Readonly<Record<string, string>> = {
  'studio.yaml': 'format: 1\nname: Kiln Lane\ncurrency: EUR\n',
  'sales/2026-03.yaml': `s1:\n  date: 2026-03-08\n${sold()}s2:\n  date: 2026-03-09\n${sold()}`,
  'sales/2026-04.yaml': 's3: {date: 2026-04-01, channel: door, lines: [{for: a, price: 1}]}\n',
  'spent.yaml':
    'x1:\n  date: 2026-03-01\n  to: A\n  for: bank\n  amount: 12.50\n  note: |\n    two\n    lines\n',
};

function sold(): string {
  return '  channel: door\n  lines: [{for: mending, price: 1}]\n';
}

export const FILES: readonly string[] = Object.keys(STUDIO).sort();

export async function read(
  folder: string,
  options: StudioOptions = remembering(folder),
): Promise<StudioReading> {
  return sure(await readStudio(folder, options));
}

/** With the memory of a version of the program. */
export function remembering(folder: string, version = 'v1'): StudioOptions {
  return { memory: openMemory(folder, storeIn(folder, version)) };
}

/** The files as a check finds them clean; or those that are called so, whatever is in them. */
export function cleanIn(reading: StudioReading, called?: readonly string[]): readonly CleanFile[] {
  const { clean } = takeIn(reading);
  const [first] = clean;
  if (!called || !first) return clean;
  return called.map((file) => clean.find((each) => each.file === file) ?? { ...first, file });
}

/** Keeps files of a reading: those that are clean, or that are called so. */
export function keep(reading: StudioReading, called?: readonly string[]): void {
  reading.remember(cleanIn(reading, called));
  reading.memory.save();
}

/** A studio that was read, found clean in all its files but those given, and remembered. */
export async function remembered(
  files: Readonly<Record<string, string>> = STUDIO,
  unclean: readonly string[] = [],
): Promise<string> {
  const folder = folderWith(files);
  const reading = await read(folder);
  const names = reading.files.map(({ file }) => file);
  keep(
    reading,
    names.filter((file) => !unclean.includes(file)),
  );
  return folder;
}
