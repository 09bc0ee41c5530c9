import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS, FIRST_EXAMPLES } from '../../src/commands/catalogue.ts';
import { type CommandSpec, flagOf } from '../../src/commands/spec.ts';
import { commitAll, git } from '../helpers/git.ts';
import { EXAMPLE_DAY, copyDemo, emptyFolder, runShell } from '../helpers/program.ts';
import { some } from '../helpers/tier.ts';

function takes({ options }: CommandSpec, flag: string): boolean {
  return options.some((option) => flagOf(option) === flag);
}

/** The example as of the demo's last day, since the day that this test runs may be any. */
function dated(spec: CommandSpec, example: string): string {
  const hasDay = / --(as-of|help)\b/.test(example) || !takes(spec, '--as-of');
  return hasDay ? example : example.replace(/^saggar \S+/, `$& --as-of ${EXAMPLE_DAY}`);
}

/** In the demo no ware is in the kiln, and one example takes some out. */
const LOADED = `f260702kt:
  date: ${EXAMPLE_DAY}
  kiln: big-kiln
  kind: glaze
  cone: "6"
  load:
    - { lot: p260609xk, in: 20 }
`;

/** What others give out, and the maps that it is read by. */
const LISTS: Readonly<Record<string, string>> = {
  'orders.csv': 'Order ID,Date,Price\n1,2026-06-20,40.00\n',
  'bank.csv': 'Ref,Date,Amount\n1,2026-06-21,40.00\n',
  'lists/shop.yaml':
    'kind: sales\nunique: Order ID\ndates: year-month-day\ncolumns: { date: Date, price: Price }\nfixed: { channel: online, for: lamp bases }\n',
  'lists/bank.yaml':
    'unique: Ref\ndates: year-month-day\ncolumns: { date: Date, amount: Amount }\n',
};

let demo = '';

beforeAll(() => {
  demo = mkdtempSync(join(tmpdir(), 'saggar-examples-'));
  copyDemo(demo);
  git(demo, 'init', '-q', '-b', 'main');
  commitAll(demo, 'Begin');
  writeFileSync(join(demo, 'firings/f260702kt.yaml'), LOADED);
  mkdirSync(join(demo, 'lists'));
  for (const [file, text] of Object.entries(LISTS)) writeFileSync(join(demo, file), text);
});
afterAll(() => {
  rmSync(demo, { recursive: true, force: true });
});

/** A command that can't be told of a studio needs none. */
function place(spec: CommandSpec): string {
  return takes(spec, '--studio') ? demo : emptyFolder();
}

describe.each(COMMANDS)('the examples of $name', (spec) => {
  it('are there', () => {
    expect(spec.examples.length).toBeGreaterThan(0);
    for (const example of spec.examples)
      expect(example).toMatch(new RegExp(`^saggar (help )?${spec.name}\\b`));
  });

  it.each(some(spec.examples, 1))('%s', async (example) => {
    const { status, err } = await runShell(['bash', '-c'], dated(spec, example), {
      folder: place(spec),
    });
    expect(err).not.toMatch(/^saggar: /m);
    // Being strict is there to end with the status of errors.
    expect([status, err]).toEqual([example.includes('--strict') ? 1 : 0, err]);
  });
});

describe('the first examples', () => {
  it('are examples of commands', () => {
    const all = COMMANDS.flatMap(({ examples }) => examples);
    expect(FIRST_EXAMPLES.filter((example) => !all.includes(example))).toEqual([]);
    expect(FIRST_EXAMPLES.length).toBeGreaterThan(2);
  });
});
