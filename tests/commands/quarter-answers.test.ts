import { mkdirSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { completeWords } from '../../src/commands/completing/complete-words.ts';
import { run } from '../helpers/command-world.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const SHEET = 'title: Own\nlines:\n  net-profit: { number: A1, title: Left, takes: [sales] }\n';

async function answers(folder: string, ...words: string[]): Promise<string[]> {
  const { out } = await run(completeWords, folder, { words });
  return out.split('\n').filter((line) => line !== '');
}

describe('the periods of quarter', () => {
  const studio = 'format: 1\nname: Hill\ncurrency: GBP\nyear-starts: "04-06"\n';

  it('are those with money in them, the latest first, by the studio’s own year', async () => {
    const folder = tempStudio({
      'studio.yaml': studio,
      'sales.yaml': 's260405ab: {}\ns260406ab: {}\ns240801ab: {}\n',
      'used.yaml': 'u200101ab: {}\n',
    });
    expect(await answers(folder, 'quarter', '')).toEqual([
      'words',
      '2026\tthe whole business year',
      '2026-Q1\t2026-04-06 to 2026-07-05',
      '2025\tthe whole business year',
      '2025-Q4\t2026-01-06 to 2026-04-05',
      '2024\tthe whole business year',
      '2024-Q2\t2024-07-06 to 2024-10-05',
    ]);
    expect(await answers(folder, 'quarter', '2025-')).toEqual([
      'words',
      '2025-Q4\t2026-01-06 to 2026-04-05',
    ]);
  });

  it('are read from the records whose ids say no day, as dated and as paid', async () => {
    const folder = tempStudio({
      'studio.yaml': studio,
      'spent/any.yaml': 'kiln-shelf: { date: 2025-07-05, paid: 2025-07-06 }\ne259999ab: {}\n',
      'bought.yaml': 'b1: { date: soon, paid: no }\nb2: nothing\n',
    });
    expect((await answers(folder, 'quarter', '2025-')).slice(1)).toEqual([
      '2025-Q2\t2025-07-06 to 2025-10-05',
      '2025-Q1\t2025-04-06 to 2025-07-05',
    ]);
  });

  it('are none where there is no studio', async () => {
    const folder = tempStudio({});
    expect(await answers(`${folder}/..`, 'quarter', '')).toEqual(['words']);
  });
});

describe('the sheets of quarter', () => {
  it('are those of the program, then the files that may be sheets', async () => {
    const folder = tempStudio({
      'studio.yaml': 'format: 1\nname: Hill\ncurrency: GBP\n',
      'own.yaml': SHEET,
      'sheets/b.json': '{ "lines": { "net-profit": {} } }',
      'sheets/notes.yaml': 'title: No sheet\n',
      'sales/net-profit.yaml': `# net-profit\n`,
      'it`s.yaml': SHEET,
    });
    mkdirSync(`${folder}/.hidden`);
    writeFileSync(`${folder}/.hidden/own.yaml`, SHEET);
    const found = await answers(folder, 'quarter', '--sheet', '');
    expect(found.slice(0, 4)).toEqual([
      'words',
      'us-schedule-c\tthe one of the year',
      'uk-sa103s\tthe one of the year',
      'plain\tPlain profit and loss',
    ]);
    expect(found.slice(-2)).toEqual(['own.yaml\tof your own', 'sheets/b.json\tof your own']);
    expect(found).toHaveLength(12);
    expect(await answers(folder, 'quarter', '--sheet=uk-sa103s-2025')).toEqual([
      'words',
      '--sheet=uk-sa103s-2025\tSA103S, Self-employment (short) 2025-26',
    ]);
  });
});
