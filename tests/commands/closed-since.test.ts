import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { closedPeriodChanges } from '../../src/commands/reports/closed-since.ts';
import { quarter } from '../../src/commands/reports/quarter.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, git } from '../helpers/git.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const OPEN = 'format: 1\nname: Test studio\ncurrency: USD\n';
const CLOSED = `${OPEN}closed-through: 2026-03-31\n`;
const SPENT = 's1: { date: 2026-01-10, to: Bank, for: bank, amount: 5.00 }\n';

function write(folder: string, file: string, text: string): void {
  writeFileSync(join(folder, file), text);
}

/** A studio whose first quarter was closed in its second commit. */
function closedStudio(): string {
  const folder = tempStudio({ 'studio.yaml': OPEN, 'spent.yaml': SPENT });
  git(folder, 'init', '-q');
  commitAll(folder, 'Begin');
  write(folder, 'spent.yaml', SPENT.replace('5.00', '5.50'));
  write(folder, 'studio.yaml', CLOSED);
  commitAll(folder, 'Close');
  return folder;
}

async function changed(folder: string): Promise<string[]> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  const { book } = checkStudio(reading, '2026-06-30');
  const world = { stamp: 'test', environment: process.env };
  const { changes } = await closedPeriodChanges(folder, book, world);
  return changes.map(({ change }) => `${change.id} ${change.became}`);
}

describe('since the period was closed', () => {
  it('nothing has changed at first, whatever changed until then', async () => {
    expect(await changed(closedStudio())).toEqual([]);
  });

  it('a record was changed, committed or not, and others of later days do not count', async () => {
    const folder = closedStudio();
    const later = 's2: { date: 2026-04-10, to: Bank, for: bank, amount: 1 }\n';
    write(folder, 'spent.yaml', SPENT.replace('5.00', '6.00') + later);
    expect(await changed(folder)).toEqual(['s1 changed']);
    write(folder, 'studio.yaml', `# Settings\n${CLOSED}`);
    commitAll(folder, 'Change');
    expect(await changed(folder)).toEqual(['s1 changed']);
    expect(readFileSync(join(folder, 'spent.yaml'), 'utf8')).toContain('6.00');
  });

  it('a period that is closed anew counts from then on', async () => {
    const folder = closedStudio();
    write(folder, 'spent.yaml', SPENT.replace('5.00', '6.00'));
    write(folder, 'studio.yaml', CLOSED.replace('03-31', '04-30'));
    expect(await changed(folder)).toEqual([]);
    commitAll(folder, 'Close April');
    expect(await changed(folder)).toEqual([]);
    write(folder, 'spent.yaml', '');
    expect(await changed(folder)).toEqual(['s1 removed']);
  });

  it('the tax summary names what has changed, and forgets no later change', async () => {
    const folder = closedStudio();
    const summary = async (): Promise<string> =>
      (await run(quarter, folder, { words: ['2026-Q1'], options: { asOf: '2026-06-30' } })).out;
    expect(await summary()).not.toContain('since');
    write(folder, 'spent.yaml', SPENT.replace('5.00', '6.00'));
    expect(await summary()).toContain('s1: changed since: amount');
    commitAll(folder, 'Change');
    expect(await summary()).toContain('s1: changed since: amount');
    write(folder, 'studio.yaml', CLOSED.replace('03-31', '04-30'));
    commitAll(folder, 'Close April');
    expect(await summary()).not.toContain('s1: changed');
  });

  it('outside git nothing is known', async () => {
    expect(await changed(tempStudio({ 'studio.yaml': CLOSED, 'spent.yaml': SPENT }))).toEqual([]);
  });
});
