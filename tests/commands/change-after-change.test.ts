/** One change after the other: what is known of the studio from the last one is what a check finds. */
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { remove } from '../../src/commands/records/remove.ts';
import type { Command } from '../../src/commands/world.ts';
import { forgetFolder } from '../../src/memory/store.ts';
import { fingerprintOf } from '../../src/read/kept/fingerprint.ts';
import { NO_MEMORY, openMemory } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { run } from '../helpers/command-world.ts';
import { memoryForTests, storeIn } from '../helpers/memory.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';
import type { FoundInState } from '../../src/check/check.ts';

const DAY = '2026-06-30';
const SALE = ['sales', '--channel', 'door', '--line', '1 mug rust at 40'];
const FUTURE = [...SALE, '--date', '2026-07-02'];

async function change(
  folder: string,
  command: Command<never>,
  words: readonly string[],
): Promise<string> {
  const { out, err, status } = await run(command, folder, { words, options: { asOf: DAY } });
  expect(status, err).toBe(0);
  return out + err;
}

/** What is kept of the folder, and what a look at its files finds. */
async function knownAndFound(
  folder: string,
): Promise<[Partial<FoundInState> | undefined, unknown]> {
  const known = openMemory(folder, storeIn(folder)).recallMore('found') as readonly FoundInState[];
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  const { findings } = checkStudio(reading, DAY);
  const content = fingerprintOf(reading);
  return [known.find((each) => each.content === content), { asOf: DAY, findings }];
}

describe('after a change', () => {
  it.each<[string, Command<never>, readonly string[]]>([
    ['a sale', add, SALE],
    ['a sale with a warning', add, FUTURE],
    ['a purchase', add, ['bought', '--supplier', 'Hill', '--line', '5 kg nepheline for 20.00']],
    ['a note', amend, ['s260310kr', 'note=seen']],
    ['a removal', remove, ['s260310kr']],
  ])('%s is known as a check finds it', async (_, command, words) => {
    const folder = exampleCopy();
    await change(folder, command, words);
    const [known, found] = await knownAndFound(folder);
    expect(known).toMatchObject(found as object);
  });

  it('the next one starts from what is known, and says the same', async () => {
    const [one, other] = [exampleCopy(), exampleCopy()];
    await change(one, add, SALE);
    await change(other, add, SALE);
    forgetFolder(other, memoryForTests());
    const again = await change(one, add, SALE);
    expect(again).toMatch(/mug in the studio \d+ → \d+/);
    expect(await change(other, add, SALE)).toBe(again);
  });
});
