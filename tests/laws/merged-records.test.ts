/** Two branches that each write to one month's file never end in records fused of both. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { remove } from '../../src/commands/records/remove.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { holds } from '../helpers/law.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, git, inGit, mergesCleanly } from '../helpers/git.ts';
import { SMALL_STUDIO } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { cases } from '../helpers/tier.ts';
import { full, plainly } from '../read/support/readers.ts';

/** Pairs of branches; a hundred in the long tier. */
const PAIRS = 10;

const FILE = 'sales/2026-04.yaml';

/** One thing done on a branch; places in the file are counted round. */
type Deed =
  | { readonly does: 'add' | 'put'; readonly sale: string; readonly at: number }
  | { readonly does: 'amend'; readonly field: string; readonly at: number }
  | { readonly does: 'remove'; readonly at: number };

const someSale = fc
  .record({
    channel: fc.constantFrom('market', 'shop'),
    day: fc.integer({ min: 1, max: 4 }),
    lines: fc.array(
      fc.constantFrom('mending, count: 1, price: 38', 'a plate, count: 1, price: 44'),
      {
        minLength: 1,
        maxLength: 2,
      },
    ),
    note: fc.constantFrom('', 'note: rain\n', 'paid: no\n'),
  })
  .map(
    ({ channel, day, lines, note }) =>
      `date: 2026-04-0${day}\nchannel: ${channel}\n${note}lines:\n${lines.map((line) => `  - { for: ${line} }\n`).join('')}`,
  );

const at = fc.nat({ max: 5 });
const someAdd: fc.Arbitrary<Deed> = fc.record({
  does: fc.constantFrom('add', 'add', 'put'),
  sale: someSale,
  at,
});
const someChange: fc.Arbitrary<Deed> = fc.oneof(
  fc.record({
    does: fc.constant('amend' as const),
    field: fc.constantFrom('note=sun', 'paid=2026-05-01', 'channel=market', 'lines.1.price=40'),
    at,
  }),
  fc.record({ does: fc.constant('remove' as const), at }),
);

/**
 * What is done on a branch; its adds get ids of their own. Not both a change and an add that reads
 * almost the same: git merges lines, and can take the one record for the other.
 */
const someWork = fc.oneof(
  { weight: 2, arbitrary: fc.array(someAdd, { minLength: 1, maxLength: 2 }) },
  { weight: 1, arbitrary: someChange.map((deed) => [deed]) },
);

const STUDIO = {
  'studio.yaml': SMALL_STUDIO['studio.yaml'] ?? '',
  'channels.yaml': SMALL_STUDIO['channels.yaml'] ?? '',
  [FILE]: '# April\n',
};

function textOf(folder: string): string {
  return readFileSync(join(folder, FILE), 'utf8');
}

function recordsOf(folder: string): RawMap {
  return full(textOf(folder)).root;
}

/** Does one thing by the program, or as a person would with an editor: between two records. */
async function doIt(folder: string, id: string, deed: Deed): Promise<void> {
  const ids = Object.keys(recordsOf(folder));
  const chosen = ids[deed.at % Math.max(1, ids.length)] ?? '';
  if (deed.does === 'amend') await run(amend, folder, { words: [chosen, deed.field] });
  else if (deed.does === 'remove') await run(remove, folder, { words: [chosen] });
  else if (deed.does === 'add') await addSale(folder, id, deed.sale);
  else {
    const record = `${id}:\n${deed.sale.replaceAll(/^/gm, '  ').trimEnd()}\n`;
    const text = textOf(folder);
    writeFileSync(join(folder, FILE), text.replace(`\n${chosen}:\n`, `\n${record}\n${chosen}:\n`));
  }
}

async function addSale(folder: string, id: string, sale: string): Promise<void> {
  const told = { words: ['sales', '-'], options: { id }, input: sale };
  const { status, err } = await run(add, folder, told);
  if (status !== 0) throw new Error(err);
}

async function work(folder: string, name: string, deeds: readonly Deed[]): Promise<RawMap> {
  for (const [index, deed] of deeds.entries()) await doIt(folder, `s${name}${String(index)}`, deed);
  git(folder, 'commit', '-qam', name, '--allow-empty');
  return recordsOf(folder);
}

/** Every value of a record with the way to it. */
function leaves(raw: Raw | undefined, way = ''): string[] {
  if (raw === undefined) return [];
  if (typeof raw === 'string') return [`${way}=${raw}`];
  return Object.entries(raw).flatMap(([key, inner]: [string, Raw]) =>
    leaves(inner, `${way}.${key}`),
  );
}

/** What a merge may make of a record: the side that changed it; of two changes, values of either. */
function isHonest(id: string, merged: Raw | undefined, [base, ours, theirs]: RawMap[]): boolean {
  const [was, mine, other] = [base?.[id], ours?.[id], theirs?.[id]].map((raw) =>
    raw === undefined ? undefined : JSON.stringify(plainly(raw)),
  );
  const now = merged === undefined ? undefined : JSON.stringify(plainly(merged));
  if (mine === was) return now === other;
  if (other === was) return now === mine;
  const known = new Set([...leaves(ours?.[id]), ...leaves(theirs?.[id])]);
  return leaves(merged).every((leaf) => known.has(leaf));
}

it('in many pairs of branches, with real adds and merges', async () => {
  const folder = inGit(tempStudio(STUDIO));
  git(folder, 'branch', '-M', 'main');
  const tally = { clean: 0, conflicts: 0 };
  await holds(
    fc.asyncProperty(
      fc.array(someSale, { minLength: 1, maxLength: 4 }),
      someWork,
      someWork,
      async (sales, ourWork, theirWork) => {
        git(folder, 'checkout', '-qf', '-B', 'base', 'main');
        for (const [index, sale] of sales.entries())
          await doIt(folder, `s${String(index)}`, { does: 'add', sale, at: 0 });
        commitAll(folder, 'Base');
        const base = recordsOf(folder);
        git(folder, 'checkout', '-q', '-B', 'theirs');
        const theirs = await work(folder, 'theirs', theirWork);
        git(folder, 'checkout', '-q', '-B', 'ours', 'base');
        const ours = await work(folder, 'ours', ourWork);
        const clean = mergesCleanly(folder, 'theirs');
        tally[clean ? 'clean' : 'conflicts'] += 1;
        const { root, findings } = full(textOf(folder));
        const ids = Object.keys({ ...base, ...ours, ...theirs, ...root });
        if (clean) {
          expect(findings).toEqual([]);
          for (const id of ids)
            expect([id, isHonest(id, root[id], [base, ours, theirs])]).toEqual([id, true]);
        } else {
          expect(new Set(findings.map(({ rule }) => rule))).toEqual(new Set(['merge-conflict']));
          for (const id of Object.keys(root))
            expect([id, isHonest(id, root[id], [base, ours, theirs])]).toEqual([id, true]);
          git(folder, 'merge', '--abort');
        }
      },
    ),
    PAIRS,
  );
  expect(tally.clean).toBeGreaterThan(cases(PAIRS) / 10);
  expect(tally.conflicts).toBeGreaterThan(cases(PAIRS) / 10);
});
