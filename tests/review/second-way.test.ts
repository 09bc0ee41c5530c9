import { describe, expect, it } from 'vitest';
import { ZERO, decimal, type Decimal } from '../../src/number/decimal.ts';
import { commitAll, git } from '../helpers/git.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';
import { PULL_REQUESTS } from './golden/pull-requests.ts';
import { some } from '../helpers/tier.ts';

type Cells = Readonly<Record<string, string | null>>;

interface Report {
  readonly rows: readonly Cells[];
  readonly totals: Cells;
  readonly consequences: readonly Cells[];
}

async function report(
  folder: string,
  [name, argument]: readonly [name: string, argument?: string],
  options: Record<string, string> = {},
): Promise<Report> {
  const place = argument === undefined ? { folder } : { folder, argument };
  const { out } = await runCommand(name, { ...options, as: 'json' }, place);
  return JSON.parse(out) as Report;
}

const QUARTERS: Readonly<Record<string, Record<string, string>>> = {
  '2026-Q1': { from: '2026-01-01', to: '2026-03-31' },
  '2026-Q2': { from: '2026-04-01', to: '2026-06-30' },
};

/** Figures of one tree by the reports that a person would run. */
async function figuresOf(folder: string): Promise<Map<string, Decimal>> {
  const figures = new Map<string, Decimal>();
  for (const [quarter, span] of Object.entries(QUARTERS)) {
    const { totals } = await report(folder, ['income'], span);
    figures.set(`income ${quarter}`, decimal(totals['net'] ?? '0'));
    figures.set(`fees and commission ${quarter}`, decimal(totals['fees'] ?? '0'));
    figures.set(`margin ${quarter}`, decimal(totals['margin'] ?? '0'));
  }
  const { rows } = await report(folder, ['materials']);
  for (const { material, onHand } of rows)
    figures.set(`on hand ${material ?? ''}`, decimal(onHand ?? '0'));
  return figures;
}

function differencesOf(before: Map<string, Decimal>, after: Map<string, Decimal>): string[] {
  return [...new Set([...before.keys(), ...after.keys()])]
    .map((key) => ({ key, by: (after.get(key) ?? ZERO).minus(before.get(key) ?? ZERO) }))
    .filter(({ by }) => !by.isZero())
    .map(({ key, by }) => `${key}: ${key.startsWith('on hand ') ? by.toString() : by.toFixed(2)}`)
    .sort();
}

describe('what follows, reckoned a second way', () => {
  it.each(some(['hidden-loss', 'honest-week', 'doubled-one-off', 'deleted-sale'], 2))(
    '%s: the reports of both trees, subtracted',
    async (name) => {
      const [base, folder] = [exampleCopy(), exampleCopy()];
      git(folder, 'init', '-q', '-b', 'main');
      commitAll(folder, 'Begin');
      PULL_REQUESTS[name]?.(folder);
      const { consequences } = await report(folder, ['review', 'main']);
      const told = consequences
        .map(({ figure, of, difference }) => `${figure ?? ''} ${of ?? ''}: ${difference ?? ''}`)
        .filter((line) => /^(?:income|fees and commission|margin|on hand) /.test(line))
        .sort();
      const differences = differencesOf(await figuresOf(base), await figuresOf(folder));
      const isMargin = (line: string): boolean => line.startsWith('margin ');
      expect(told.filter((line) => !isMargin(line))).toEqual(
        differences.filter((line) => !isMargin(line)),
      );
      // What is sold in a later quarter bears a cost too, and that quarter is not among the changes.
      expect(differences).toEqual(expect.arrayContaining(told.filter(isMargin)));
      expect(told.some(isMargin)).toBe(name !== 'hidden-loss');
    },
  );
});
