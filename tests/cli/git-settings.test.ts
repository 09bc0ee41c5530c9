/** No setting and no variable of git makes a command of this program run anything or write in `.git`. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { COMMANDS, COMPLETE_WORDS } from '../../src/commands/catalogue.ts';
import { LINES, TYPED } from '../helpers/every-command.ts';
import { emptyFolder, runSaggar } from '../helpers/program.ts';
import { gitState } from '../helpers/git-state.ts';
import { spring } from '../helpers/trap-springs.ts';
import { trappedStudio } from '../helpers/traps.ts';
import { some } from '../helpers/tier.ts';

it('every command is tried', () => {
  const names = [...COMMANDS, COMPLETE_WORDS].map(({ name }) => name);
  expect(Object.keys(TYPED).sort()).toEqual(names.sort());
});

// `other` and `work` have both changed one line since they parted, so git merges its file.
const MERGES = [
  ['review', 'other', 'work', '--as', 'json'],
  ['review', 'other'],
];

it('no command starts what they name, and git itself would start each', async () => {
  const trapped = trappedStudio();
  const { studio, marks, variables, partial } = trapped;
  const out = join(emptyFolder(), 'out');
  const before = gitState(studio);
  for (const line of [...some(LINES, 10), ...MERGES]) {
    const words = line.map((word) => word.replace('PARTIAL', partial).replace('OUT', out));
    const { status, err } = await runSaggar(words, { folder: studio, env: variables });
    // A command that refuses would prove nothing, but for one that would have to fetch what is missing.
    const isRefused = words.some((word) => word.includes(partial));
    expect({ words, isRefused: status === 2, err }).toMatchObject({ isRefused });
    expect({ words, marks: readdirSync(marks) }).toEqual({ words, marks: [] });
    expect({ words, state: gitState(studio) }).toEqual({ words, state: before });
  }
  for (const each of Object.values(trapped.springs)) spring(studio, each);
  const sprung = readdirSync(marks);
  expect(Object.keys(trapped.springs).filter((name) => !sprung.includes(name))).toEqual([]);
});
