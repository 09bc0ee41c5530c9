/** Every rule on two whole studios on disk: one that it speaks of, place by place, and one that is sound. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { READER_RULES, RULES } from '../../src/check/rules.ts';
import type { Place, Problem } from '../../src/problem.ts';
import { locate } from '../../src/read/place.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { FIXTURES, fixtureRules } from '../helpers/fixtures.ts';

const DAY = '2026-06-30';
const ALL = [...READER_RULES, ...RULES];

async function problemsOf(rule: string, side: 'bad' | 'good'): Promise<readonly Problem[]> {
  const folder = join(FIXTURES, rule, side);
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  return locate(folder, checkStudio(reading, DAY).findings);
}

function at({ file, line, column }: Place): string {
  return `${file}:${line}:${column}`;
}

/** A problem as it stands in `expected.txt`: its place and message, then the hint and what is related. */
function lines({ place, severity, message, hint, related }: Problem): string[] {
  return [
    `${at(place)} ${severity}: ${message}`,
    `    ${hint}`,
    ...related.map((other) => `    ${at(other.place)} ${other.message}`),
  ];
}

test('every rule has a name of its own and says what it is about', () => {
  expect(new Set(ALL.map(({ name }) => name)).size).toBe(ALL.length);
  for (const { name, about } of ALL) {
    expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(about).toMatch(/^[A-Z].*[^ ]\.$/);
  }
});

test('every folder of fixtures is of a rule', () => {
  expect(fixtureRules()).toEqual(ALL.map(({ name }) => name).sort());
});

describe.each(ALL)('$name', ({ name, severity }) => {
  test('speaks at each wrong place, and no other rule speaks', async () => {
    const problems = await problemsOf(name, 'bad');
    const expected = readFileSync(join(FIXTURES, name, 'expected.txt'), 'utf8');
    expect(`${problems.flatMap(lines).join('\n')}\n`).toBe(expected);
    expect(new Set(problems.map(({ rule }) => rule))).toEqual(new Set([name]));
    expect(new Set(problems.map((problem) => problem.severity))).toEqual(new Set([severity]));
  });

  test('is silent where all is well, as are all others', async () => {
    const problems = await problemsOf(name, 'good');
    expect(problems.flatMap(lines)).toEqual([]);
  });
});
