/** A studio on a disk with coarse times, while what is remembered lies on another disk. */
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openMemory } from '../../src/read/kept/memory.ts';
import { readStudio, type StudioReading } from '../../src/read/read.ts';
import { holds } from '../helpers/law.ts';
import { coarseDisk, type CoarseDisk } from '../helpers/coarse-disk.ts';
import { memoryForTests, storeIn } from '../helpers/memory.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { takeIn } from '../../src/check/taken.ts';
import { cases } from '../helpers/tier.ts';

/** Edits of a file; a thousand and more in the long tier. */
const EDITS = 200;

/** What is done next: by hand or by the program itself, and how long after; then how often it is asked. */
const step = fc.record({
  after: fc.nat(4000),
  isOurs: fc.boolean(),
  file: fc.constantFrom('used.yaml', 'spent.yaml'),
  asked: fc.array(fc.nat(5000), { maxLength: 2 }),
});

type Step = typeof step extends fc.Arbitrary<infer T> ? T : never;

interface Scene {
  readonly folder: string;
  readonly disk: CoarseDisk;
  readonly open: () => ReturnType<typeof storeIn>;
}

/** Every text of a file is as long as any other. */
function textOf(file: Step['file'], edit: number): string {
  const more = {
    'used.yaml': 'material: a, quantity: 1 g',
    'spent.yaml': 'to: A, for: bank, amount: 1',
  };
  return `u${String(edit).padStart(6, '0')}: {date: 2026-01-01, ${more[file]}}\n`;
}

/** Reads what is not known, and notes it. */
async function read({ folder, open }: Scene): Promise<StudioReading> {
  const reading = await readStudio(folder, { memory: openMemory(folder, open()) });
  if ('refused' in reading) throw new Error(reading.refused);
  reading.remember(takeIn(reading).clean);
  return reading;
}

/** What is in the studio, and how many files of it were known; what was read is kept. */
async function answer(scene: Scene): Promise<{ ids: readonly string[]; known: number }> {
  const reading = await read(scene);
  const ids = reading.files.flatMap(({ root }) => Object.keys(root));
  reading.memory.save();
  return { ids, known: reading.files.filter(({ known }) => known).length };
}

/** A command of ours reads, writes, and keeps what it knows after that. */
async function edit(scene: Scene, { isOurs, file }: Step, text: string): Promise<void> {
  const reading = isOurs ? await read(scene) : undefined;
  scene.disk.write(join(scene.folder, file), text);
  reading?.memory.keepMore('mine', text);
  reading?.memory.save();
}

describe.each([1000, 2000])('on a disk with times of %i ms', (tick) => {
  it('each edit of equal size is seen', async () => {
    let now = 1_800_000_000_000;
    const place = { ...memoryForTests(), clock: () => now };
    const folder = tempStudio({});
    const disk = coarseDisk(tick, () => now);
    const files: readonly Step['file'][] = ['spent.yaml', 'used.yaml'];
    const texts = new Map(files.map((file) => [file, textOf(file, 0)]));
    for (const [file, text] of texts) disk.write(join(folder, file), text);
    const scene = { folder, disk, open: () => storeIn(folder, '', place) };
    let [edits, recalled] = [0, 0];
    const law = fc.asyncProperty(step, async (next) => {
      edits += 1;
      now += next.after;
      const text = textOf(next.file, edits);
      texts.set(next.file, text);
      await edit(scene, next, text);
      const expected = files.map((file) => texts.get(file)?.slice(0, 7));
      for (const pause of next.asked) {
        now += pause;
        const { ids, known } = await answer(scene);
        expect(ids).toEqual(expected);
        if (known > 0) recalled += 1;
      }
    });
    await holds(law, EDITS, { endOnFailure: true });
    expect(edits).toBe(cases(EDITS));
    expect(recalled).toBeGreaterThan(cases(EDITS) / 10);
  });
});
