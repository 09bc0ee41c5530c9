/** One change after the other: what is known of the studio from the last one is what a check finds. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { add } from '../../src/commands/add.ts';
import { amend } from '../../src/commands/amend.ts';
import { keptEnd, keptFindings } from '../../src/commands/kept-book.ts';
import { remove } from '../../src/commands/remove.ts';
import type { Command } from '../../src/commands/world.ts';
import { checkStudio } from '../../src/check/check.ts';
import { bookEnd } from '../../src/entry/find-end.ts';
import { holdingsOf } from '../../src/entry/holdings.ts';
import { keptOfStudio } from '../../src/read/answers.ts';
import { NO_MEMORY } from '../../src/read/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { run } from '../helpers/command-world.ts';
import { storeIn } from '../helpers/memory.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';

const DAY = '2026-06-30';
const SALE = ['sales', '--channel', 'door', '--line', '1 mug at 40'];
const FUTURE = [...SALE, '--date', '2026-07-02'];

/** Past the disk's tick. */
function settle(): Promise<void> {
  return new Promise((done) => setTimeout(done, 30));
}

async function change(folder: string, command: Command, words: readonly string[]): Promise<string> {
  await settle();
  const { out, err, status } = await run(command, folder, { words, options: { asOf: DAY } });
  expect(status, err).toBe(0);
  return out + err;
}

/** What is kept of the folder, and what a look at its files finds. */
async function knownAndFound(folder: string): Promise<[unknown, unknown]> {
  const kept = keptOfStudio(folder, storeIn(folder));
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  const { book, findings } = checkStudio(reading, DAY);
  const known = [keptFindings(kept, DAY), keptEnd(kept, DAY)];
  const found = [findings, { end: bookEnd(book), held: holdingsOf(book, DAY) }];
  return [known, JSON.parse(JSON.stringify(found))];
}

describe('after a change', () => {
  it.each<[string, Command, readonly string[]]>([
    ['a sale', add, SALE],
    ['a sale with a warning', add, FUTURE],
    ['a purchase', add, ['bought', '--supplier', 'Hill', '--line', '5 kg nepheline for 20.00']],
    ['a note', amend, ['s260310kr', 'note=seen']],
    ['a removal', remove, ['s260310kr']],
  ])('%s is known as a check finds it', async (_, command, words) => {
    const folder = exampleCopy();
    await change(folder, command, words);
    const [known, found] = await knownAndFound(folder);
    expect(known).toEqual(found);
  });

  it('the next one starts from what is known, and says the same', async () => {
    const [one, other] = [exampleCopy(), exampleCopy()];
    await change(one, add, SALE);
    const again = await change(one, add, SALE);
    await change(other, add, SALE);
    // A change from outside, after which nothing is known.
    await settle();
    writeFileSync(join(other, 'stray.yaml'), '');
    expect(await knownAndFound(other)).toHaveProperty([0], [undefined, undefined]);
    expect(again).toMatch(/mug in the studio \d+ → \d+/);
    expect(await change(other, add, SALE)).toBe(again);
  });
});
