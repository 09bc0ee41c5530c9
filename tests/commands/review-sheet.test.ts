/** A review of a tax sheet of the studio's own: no record changes, and every summary does. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { review } from '../../src/commands/review/review.ts';
import { run } from '../helpers/command-world.ts';
import { inGit } from '../helpers/git.ts';
import { small } from '../helpers/small-studio.ts';

const SHEET = readFileSync(join(import.meta.dirname, '../../schema/tax-sheets/plain.yaml'), 'utf8');

/** Goods are deducted when they are paid for. */
const WITHOUT_STOCK = 'goods:\n  cash: paid\n  source: common practice\n';

const TOOLS = 'e1: { date: 2026-04-02, to: Pit, for: tools, amount: 12 }\n';

function withSheet(settings = ''): string {
  const folder = small();
  const file = join(folder, 'studio.yaml');
  writeFileSync(file, `${readFileSync(file, 'utf8')}tax-sheet: own.yaml\n${settings}`);
  writeFileSync(join(folder, 'own.yaml'), SHEET);
  writeFileSync(join(folder, 'spent.yaml'), TOOLS);
  return inGit(folder);
}

const ASKED = { words: ['HEAD'], options: { asOf: '2026-09-01' } };

describe("a change of a studio's own tax sheet", () => {
  it('is looked at first, and its lines are compared', async () => {
    const folder = withSheet();
    writeFileSync(
      join(folder, 'own.yaml'),
      SHEET.replace('tools, ', '').replace('[other]', '[other, tools]'),
    );
    const { out, status } = await run(review, folder, ASKED);
    expect(out).toMatch(/^Look closely: tax sheet own\.yaml: its lines or rates are others, so/);
    expect(status).toBe(0);
    const { out: json } = await run(review, folder, {
      ...ASKED,
      options: { ...ASKED.options, as: 'json' },
    });
    const { figures } = JSON.parse(json) as { figures: { report: string; row: string }[] };
    expect(figures.map(({ row }) => row)).toEqual(
      expect.arrayContaining(['line.equipment', 'line.other-expenses']),
    );
    expect(figures.every(({ report }) => report === 'quarter')).toBe(true);
  });

  it('of a closed quarter is an error', async () => {
    const folder = withSheet('closed-through: 2026-06-30\n');
    writeFileSync(
      join(folder, 'own.yaml'),
      `${SHEET}
${WITHOUT_STOCK}`,
    );
    const { out, status } = await run(review, folder, ASKED);
    expect(status).toBe(1);
    expect(out).toMatch(/^Not fit to merge: profit of 2026-Q1, closed, would change by /);
    expect(out).toContain('own.yaml:2 closed-period-changed error: ');
  });

  it('in its comments alone is none', async () => {
    const folder = withSheet();
    writeFileSync(join(folder, 'own.yaml'), `# Ours.\n${SHEET}`);
    const { out } = await run(review, folder, ASKED);
    expect(out).toMatch(/^Nothing changed\./);
  });
});
