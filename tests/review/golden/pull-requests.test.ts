import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { review } from '../../../src/commands/review/review.ts';
import { run } from '../../helpers/command-world.ts';
import { commitAll, git, inGit } from '../../helpers/git.ts';
import { copyDemo } from '../../helpers/program.ts';
import { namesIn, storeIn } from '../../helpers/memory.ts';
import { runCommand } from '../../helpers/studio-commands.ts';
import { some } from '../../helpers/tier.ts';
import { exampleCopy } from '../../helpers/temp-studio.ts';
import { PULL_REQUESTS } from './pull-requests.ts';

/** What the branch is to be judged, and words that the first lines must have. */
const EXPECTED: Readonly<Record<string, readonly [status: number, first: RegExp]>> = {
  'honest-week': [0, /^No concerns: 3 records added\.$/m],
  'factor-ten': [
    0,
    /^Look closely: sale s260630zz: a price of 340\.00 for tumbler is 10\.6 times the usual/m,
  ],
  'deleted-sale': [1, /^Not fit to merge: profit of 2026-Q1, closed, would change by -213\.32\.$/m],
  'recipe-tweak': [
    1,
    /^Not fit to merge: profit of 2025-Q2, closed, would change by \+0\.25, of 2025-Q3 by /m,
  ],
  'price-rise': [0, /^Look closely: product mug: price 40\.00 → 44\.00\.$/m],
  reorganised: [0, /^No concerns: \d+ records in another file\.$/m],
  'doubled-one-off': [1, /^Not fit to merge: not enough of moon-jar: /m],
  'hidden-loss': [0, /^Look closely: firing f260511cq: load 2 \(p260421vx\), lost 2 → none\.$/m],
  redated: [1, /^Not fit to merge: profit of 2026-Q1, closed, would change by -560\.00\.$/m],
  'renamed-product': [0, /^No concerns: 1 record under another id\.$/m],
  'other-currency': [
    1,
    /^Not fit to merge: every amount .* would be EUR and not USD; none is conv/m,
  ],
  'other-basis': [
    1,
    /^Not fit to merge: profit of 2026-Q1, closed, would change by -1,701\.80, of /m,
  ],
  'other-stock-value': [
    1,
    /^Not fit to merge: profit of 2025-Q4, closed, would change by \+13\.79/m,
  ],
  'other-year': [1, /^Not fit to merge: profit of 2025-Q4, closed, would change by -6,068\.94, /m],
  'dearer-hours': [1, /^Not fit to merge: margin of 2025-Q4, closed, would change by -1,273\.90/m],
  'more-clay': [1, /^Not fit to merge: profit of 2025-Q3, closed, would change by -23\.99, of /m],
  'later-elements': [1, /^Not fit to merge: margin of 2025-Q4, closed, would change by \+2\.77, /m],
  'pounds-to-kilos': [0, /^Look closely: purchase b260413je: .* the unit is another, the number /m],
  'higher-commission': [
    1,
    /^Not fit to merge: profit of 2025-Q4, closed, would change by -62\.60/m,
  ],
  'door-as-wholesale': [
    1,
    /^Not fit to merge: sales tax for Tansy County of 2026-Q1, closed, would change by -8\.32\.$/m,
  ],
  'other-category': [
    1,
    /^Not fit to merge: expenses for education of 2026-Q1, closed, would change by \+86\.00\.$/m,
  ],
  'sales-tax-slip': [0, /^Look closely: sale s260528vt: tax 5\.98 → 0\.98\.$/m],
  'later-refund': [
    1,
    /^Not fit to merge: profit of 2025-Q4, closed, would change by \+104\.00, of 2026-Q1 by -97\.75/m,
  ],
  'note-and-test': [0, /^No concerns: 1 record added, 1 changed\.$/m],
  'split-load': [0, /^Look closely: firing f260511cq: a record of 2026-05-11 was edited\.$/m],
  'more-lead': [
    0,
    /^Look closely: test t251121ad: leach, lead under 0\.02 µg\/mL → 2\.0 µg\/mL\.$/m,
  ],
  'hotter-cone': [0, /^Look closely: firing f260511cq: cone 5 for bisque is 9 cones above /m],
  'large-sale': [0, /^Look closely: sale s260629vc: a price of 99999\.00 for bud-vase is /m],
};

describe('pull requests', () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'saggar-pull-requests-'));
    copyDemo(folder);
    git(folder, 'init', '-q', '-b', 'main');
    commitAll(folder, 'Begin');
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it.each(some(Object.entries(PULL_REQUESTS), 14))('%s', async (name, work) => {
    git(folder, 'checkout', '-q', '-f', 'main');
    git(folder, 'clean', '-q', '-fd');
    git(folder, 'checkout', '-qb', name);
    work(folder);
    const { status, out, complaints } = await runCommand(
      'review',
      {},
      { argument: 'main', folder },
    );
    await expect(out).toMatchFileSnapshot(`${name}.txt`);
    expect(out.split('\n').filter((line) => line.length > 80)).toEqual([]);
    const [expected, first] = EXPECTED[name] ?? [];
    expect({ status, complaints }).toEqual({ status: expected, complaints: '' });
    expect(out.split('\n\n')[0]?.replaceAll('\n', ' ')).toMatch(first ?? /never/);
  });
});

const TOLD = { words: ['base'], options: { asOf: '2026-06-30' } };
describe('a branch', () => {
  it.each(['honest-week', 'hidden-loss', 'renamed-product'])(
    '%s is reviewed alike when it is known',
    async (name) => {
      const folder = inGit(exampleCopy());
      git(folder, 'branch', 'base');
      PULL_REQUESTS[name]?.(folder);
      const first = await run(review, folder, TOLD);
      expect(namesIn(storeIn(folder))).toContain('list');
      expect(await run(review, folder, TOLD)).toEqual(first);
    },
  );

  it('is reviewed alike from the working tree and from its commit', async () => {
    const folder = inGit(exampleCopy());
    git(folder, 'branch', 'base');
    PULL_REQUESTS['deleted-sale']?.(folder);
    const tree = await runCommand('review', {}, { argument: 'base', folder });
    commitAll(folder, 'Change');
    const range = await runCommand('review', {}, { argument: 'base..HEAD', folder });
    expect(range.out).toBe(tree.out.replace('the working tree', 'HEAD'));
    expect(range.status).toBe(1);
  });
});
