/** Opens files as a studio: through the disk, the reader and the check, as every command does. */
import type { Checked } from '../../../src/check/check.ts';
import { isRefusal } from '../../../src/commands/world.ts';
import type { Problem } from '../../../src/problem.ts';
import { locate } from '../../../src/read/place.ts';
import { NO_MEMORY } from '../../../src/read/kept/memory.ts';
import { readStudio } from '../../../src/read/read.ts';
import { checkStudio } from '../../helpers/check-studio.ts';
import { withStudio, type StudioFiles } from '../../helpers/write-studio.ts';

/** The book that the files make and what is wrong with it on a day. */
export async function openFiles(files: StudioFiles, day: string): Promise<Checked> {
  return withStudio(files, (folder) => openFolder(folder, day));
}

/** The same, with the places of all problems counted. */
export async function checkedFiles(
  files: StudioFiles,
  day: string,
): Promise<Checked & { readonly problems: readonly Problem[] }> {
  return withStudio(files, async (folder) => {
    const checked = await openFolder(folder, day);
    return { ...checked, problems: await locate(folder, checked.findings) };
  });
}

async function openFolder(folder: string, day: string): Promise<Checked> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if (isRefusal(reading)) throw new Error(reading.refused);
  return checkStudio(reading, day);
}
