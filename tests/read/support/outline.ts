/** What a reading says, as plain data that two readings can be compared by. */
import type { StudioReading, Unread } from '../../../src/read/read.ts';
import { plainly } from './readers.ts';

export function sure(reading: StudioReading | Unread): StudioReading {
  if ('refused' in reading) throw new Error(reading.refused);
  return reading;
}

export function outline(reading: StudioReading | Unread): unknown {
  const { files, findings, strays } = sure(reading);
  const contents = files.map(({ file, kind, root, odd }) => ({
    file,
    kind,
    root: plainly(root),
    odd,
  }));
  return { files: contents, findings, strays };
}
