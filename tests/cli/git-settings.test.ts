/** No setting and no variable of git makes a command of this program run anything or write in `.git`. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { COMMANDS, COMPLETE_WORDS } from '../../src/commands/catalogue.ts';
import { emptyFolder, runSaggar } from '../helpers/program.ts';
import { gitState } from '../helpers/git-state.ts';
import { spring } from '../helpers/trap-springs.ts';
import { trappedStudio } from '../helpers/traps.ts';

const AT = ['--at', 'main'];

/** What is typed for each command, so that it asks git where it ever does. */
const TYPED: Readonly<Record<string, readonly (readonly string[])[]>> = {
  init: [['.', '--with', 'hooks,workflow,diff,schemas']],
  day: [[], ['--long', '--as', 'json']],
  check: [[], ['--as', 'annotations'], AT, ['--at', 'PARTIAL']],
  tidy: [[]],
  add: [
    ['used', '--material', 'kaolin', '--quantity', '1 kg', '--no-input'],
    ['sales', '--channel', 'market', '--line', '1 mug at 38', '--no-input'],
  ],
  unload: [['f260430ef', '--line', '6 first', '--no-input']],
  amend: [['s260402cd', 'lines.0.price=40']],
  remove: [['k260418mt']],
  materials: [AT],
  firings: [AT],
  losses: [AT],
  income: [AT],
  pieces: [AT],
  costs: [AT],
  quarter: [['2026-Q1'], AT],
  galleries: [AT],
  fairs: [AT],
  review: [['main'], ['main', 'work'], ['main..PARTIAL']],
  export: [['OUT']],
  forget: [[]],
  completion: [['bash']],
  man: [[]],
  'complete-words': [['amend', 's26']],
};

it('every command is tried', () => {
  const names = [...COMMANDS, COMPLETE_WORDS].map(({ name }) => name);
  expect(Object.keys(TYPED).sort()).toEqual(names.sort());
});

it('no command starts what they name, and git itself would start each', async () => {
  const trapped = trappedStudio();
  const { studio, marks, variables, partial } = trapped;
  const out = join(emptyFolder(), 'out');
  const before = gitState(studio);
  const lines = Object.entries(TYPED).flatMap(([name, each]) =>
    each.map((words) => [name, ...words]),
  );
  for (const line of lines) {
    const words = line.map((word) => word.replace('PARTIAL', partial).replace('OUT', out));
    const { status, err } = await runSaggar(words, { folder: studio, env: variables });
    // A command that refuses what is asked for would prove nothing.
    expect({ words, status, err }).not.toMatchObject({ status: 2 });
    expect({ words, marks: readdirSync(marks) }).toEqual({ words, marks: [] });
    expect({ words, state: gitState(studio) }).toEqual({ words, state: before });
  }
  for (const each of Object.values(trapped.springs)) spring(studio, each);
  const sprung = readdirSync(marks);
  expect(Object.keys(trapped.springs).filter((name) => !sprung.includes(name))).toEqual([]);
}, 180_000);
