/** A studio on a disk with coarse times, while what is remembered lies on another disk. */
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keptOfStudio } from '../../src/read/answers.ts';
import { readStudio } from '../../src/read/read.ts';
import { coarseDisk, type CoarseDisk } from '../helpers/coarse-disk.ts';
import { memoryForTests, storeIn } from '../helpers/memory.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const EDITS = 1000;

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

/** Every text is as long as any other. */
function textOf(edit: number): string {
  return `u${String(edit).padStart(6, '0')}: {}\n`;
}

/** What is said of the studio: known, or read anew and kept. */
async function answer({ folder, open }: Scene): Promise<unknown> {
  const store = open();
  const kept = keptOfStudio(folder, store);
  const known = kept.recall('ids');
  const reading = await readStudio(folder, { store });
  if ('refused' in reading) throw new Error(reading.refused);
  const read = reading.files.flatMap(({ root }) => Object.keys(root));
  reading.remember(reading.files.map(({ file }) => file));
  if (known === undefined) kept.keep('ids', read);
  return { known: known ?? read, read };
}

function edit({ folder, disk, open }: Scene, { isOurs, file }: Step, text: string): void {
  const kept = keptOfStudio(folder, open());
  disk.write(join(folder, file), text);
  if (isOurs) kept.after(new Map([[file, text]]))?.keep('mine', text);
}

describe.each([1000, 2000])('on a disk with times of %i ms', (tick) => {
  it('each of a thousand edits of equal size is seen', async () => {
    let now = 1_800_000_000_000;
    const place = { ...memoryForTests(), clock: () => now };
    const folder = tempStudio({});
    const disk = coarseDisk(tick, () => now);
    const texts = { 'used.yaml': textOf(0), 'spent.yaml': textOf(0) };
    for (const [file, text] of Object.entries(texts)) disk.write(join(folder, file), text);
    const scene = { folder, disk, open: () => storeIn(folder, '', place) };
    let [edits, recalled] = [0, 0];
    const law = fc.asyncProperty(step, async (next) => {
      edits += 1;
      now += next.after;
      edit(scene, next, (texts[next.file] = textOf(edits)));
      const expected = [texts['spent.yaml'], texts['used.yaml']].map((text) => text.slice(0, 7));
      for (const pause of next.asked) {
        now += pause;
        expect(await answer(scene)).toEqual({ known: expected, read: expected });
        if (keptOfStudio(folder, scene.open()).recall('ids') !== undefined) recalled += 1;
      }
    });
    await fc.assert(law, { numRuns: EDITS, endOnFailure: true });
    expect(edits).toBe(EDITS);
    expect(recalled).toBeGreaterThan(EDITS / 10);
  }, 120_000);
});
