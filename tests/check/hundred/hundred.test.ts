/** One mistake is one problem, at its place; and who does exactly what it says has a sound studio again. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/problem.ts';
import { NO_MEMORY } from '../../../src/read/kept/memory.ts';
import { locate } from '../../../src/read/place.ts';
import { readStudio } from '../../../src/read/read.ts';
import { checkStudio } from '../../helpers/check-studio.ts';
import { filesIn, tempStudio } from '../../helpers/temp-studio.ts';
import { AGAINST_THE_BOOK } from './against-the-book.ts';
import { IN_FIELDS } from './in-fields.ts';
import { IN_VALUES } from './in-values.ts';
import { IN_YAML } from './in-yaml.ts';
import type { MistakeRow } from './mistake-row.ts';
import { obeyed } from './obeying.ts';

const DAY = '2026-06-30';
const SOUND = filesIn(fileURLToPath(new URL('studio', import.meta.url)));

async function problemsIn(folder: string): Promise<readonly Problem[]> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  return locate(folder, checkStudio(reading, DAY).findings);
}

function lines({ place: { file, line, column }, rule, message, hint }: Problem): string {
  return `${file}:${line}:${column} ${rule}: ${message}\n    ${hint}`;
}

/** The text without the signs, and where they were. */
function marked(text: string): { text: string; line: number; column: number; width: number } {
  const [before = '', inside = ''] = text.split(/[«»]/);
  const above = before.split('\n');
  const at = { line: above.length, column: (above.at(-1)?.length ?? 0) + 1 };
  return { text: text.replace(/[«»]/g, ''), ...at, width: inside.length };
}

test('the studio without a mistake is sound', async () => {
  expect((await problemsIn(tempStudio(SOUND))).map(lines)).toEqual([]);
});

const LISTS: Readonly<Record<string, readonly MistakeRow[]>> = {
  'in-yaml': IN_YAML,
  'in-fields': IN_FIELDS,
  'in-values': IN_VALUES,
  'against-the-book': AGAINST_THE_BOOK,
};

test('there are more than a hundred, each another one', () => {
  const all = Object.values(LISTS).flat();
  expect(new Set(all.map(([what]) => what)).size).toBe(all.length);
  expect(new Set(all.map(([, ...row]) => row.join('\n'))).size).toBe(all.length);
  expect(all.length).toBeGreaterThanOrEqual(100);
});

describe.each(Object.entries(LISTS))('mistakes %s', (name, mistakes) => {
  test('are one problem each, at its place, and what it says to write is all that it takes', async () => {
    const folder = tempStudio(SOUND);
    const said: string[] = [];
    for (const [what, file, sound, wrong] of mistakes) {
      const whole = SOUND[file] ?? '';
      expect(whole.split(sound), what).toHaveLength(2);
      const { text, ...mark } = marked(whole.replace(sound, () => wrong));
      writeFileSync(join(folder, file), text);
      const problems = await problemsIn(folder);
      said.push(`${what}\n${problems.map(lines).join('\n')}\n`);
      expect(
        problems.map(({ place }) => place),
        what,
      ).toMatchObject([{ file, ...mark }]);
      writeFileSync(join(folder, file), problems.reduce(obeyed, text));
      expect((await problemsIn(folder)).map(lines), what).toEqual([]);
      writeFileSync(join(folder, file), whole);
    }
    await expect(said.join('\n')).toMatchFileSnapshot(`said/${name}.txt`);
  });
});
