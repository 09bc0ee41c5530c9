import { readStudio } from '../../src/read/read.ts';
import { openMemory } from '../../src/read/kept/memory.ts';
import { takeIn } from '../../src/check/taken.ts';
import { finishBook } from '../../src/check/draft.ts';
import { resolve } from 'node:path';
export async function bookOfFolder(dir: string) {
  const reading = await readStudio(resolve(dir), { memory: openMemory(resolve(dir), undefined) });
  if ('refused' in reading) throw new Error('x');
  return finishBook(takeIn(reading).draft);
}
