/** One mistake is one problem, at its place; and who does exactly what it says has a sound studio again. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/problem.ts';
import { NO_MEMORY } from '../../../src/read/kept/memory.ts';
import { locate } from '../../../src/read/place.ts';
import { readStudio } from '../../../src/read/read.ts';
import { checkStudio } from '../../helpers/check-studio.ts';
import { filesIn, tempStudio } from '../../helpers/temp-studio.ts';
import { MISTAKES } from './mistakes.ts';
import { obeyed } from './obeying.ts';

const DAY = '2026-06-30';
const SOUND = filesIn(fileURLToPath(new URL('studio', import.meta.url)));

async function problemsIn(folder: string): Promise<readonly Problem[]> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  return locate(folder, checkStudio(reading, DAY).findings);
}

function told({ place: { file, line, column }, message, hint }: Problem): string {
  return `${file}:${line}:${column} ${message}\n    ${hint}`;
}

/** The text without the signs, and where they are. */
function marked(text: string): { text: string; line: number; column: number; width: number } {
  const before = text.slice(0, text.indexOf('«')).split('\n');
  const inside = text.slice(text.indexOf('«') + 1, text.indexOf('»'));
  const at = { line: before.length, column: (before.at(-1)?.length ?? 0) + 1 };
  return { text: text.replace(/[«»]/g, ''), ...at, width: inside.length };
}

test('the studio without a mistake is sound', async () => {
  expect((await problemsIn(tempStudio(SOUND))).map(told)).toEqual([]);
});

test('there are a hundred, each another one', () => {
  expect(new Set(MISTAKES.map(([what]) => what)).size).toBe(MISTAKES.length);
  expect(MISTAKES.length).toBeGreaterThanOrEqual(100);
});

describe.each(MISTAKES)('%s', (_what, file, sound, wrong) => {
  const before = SOUND[file] ?? '';

  test('is one problem at its place, and what it says to write is all that it takes', async () => {
    expect(before).toContain(sound);
    const { text, ...mark } = marked(before.replace(sound, () => wrong));
    const folder = tempStudio({ ...SOUND, [file]: text });
    const problems = await problemsIn(folder);
    expect(problems.map(told)).toHaveLength(1);
    const [problem] = problems;
    if (!problem) return;
    expect({ hint: problem.hint, place: problem.place }).toMatchObject({ place: { file, ...mark } });
    writeFileSync(join(folder, file), obeyed(text, problem));
    const left = await problemsIn(folder);
    expect([problem.hint, readFileSync(join(folder, file), 'utf8'), ...left.map(told)]).toHaveLength(2);
  });
});
