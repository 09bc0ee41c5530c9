import { describe, expect, it } from 'vitest';
import { show } from '../../src/commands/records/show.ts';
import { run } from '../helpers/command-world.ts';
import { small } from '../helpers/small-studio.ts';

describe('show', () => {
  it('shows a record as it is in its file, what it came to, and how to change it', async () => {
    const { status, out } = await run(show, small(), { words: ['s260402cd'] });
    expect(status).toBe(0);
    expect(out).toContain('s260402cd, a sale: sales/2026-04.yaml:11\n');
    expect(out).toContain('      count: 4 # all they had room for\n');
    // Four at 36 less a tenth.
    expect(out).toMatch(/^Charged +.*129\.60$/m);
    expect(out).toMatch(/^Sold +p260301ab +4 /m);
    expect(out).toContain('No other record uses it.\n');
    expect(out).toContain('To change it: saggar amend s260402cd FIELD=VALUE\n');
    expect(out).toContain('To take it out: saggar remove s260402cd\n');
  });

  it('names what uses it, each with file and line', async () => {
    const { out } = await run(show, small(), { words: ['p260301ab'] });
    expect(out).toContain(`Used by 2 records:
  f260310ab (firing) firings/f260310ab.yaml:8
  f260320cd (firing) firings/f260320cd.yaml:8
`);
    expect(out).toMatch(/^In the studio +firsts +11 /m);
    expect(out).toContain('saggar remove p260301ab (once nothing uses it)');
  });

  it('finds a record by its name, and says what may be meant', async () => {
    const named = await run(show, small(), { words: ['Sea green'] });
    expect(named.out).toContain('sea-green, a recipe: recipes.yaml:1\n');
    expect(named.out).toContain('For a new version: saggar revise sea-green');
    const wrong = await run(show, small(), { words: ['sea-grean'] });
    expect([wrong.status, wrong.out]).toEqual([2, '']);
    expect(wrong.err).toContain('did you mean sea-green?');
  });

  it('tells a program the same', async () => {
    const { out } = await run(show, small(), { words: ['s260402cd'], options: { as: 'json' } });
    expect(JSON.parse(out)).toMatchObject({
      report: 'record',
      id: 's260402cd',
      kind: 'sales',
      file: 'sales/2026-04.yaml',
      line: 11,
      namedBy: [],
    });
    expect(out).toContain('"129.60"');
  });

  it('says of a record with errors that it counts for nothing', async () => {
    const folder = small({
      'spent.yaml': 'e1:\n  date: 2026-04-31\n  to: X\n  for: booth\n  amount: 3\n',
    });
    const { out } = await run(show, folder, { words: ['e1'] });
    expect(out).toContain('It has errors, so it counts for nothing yet. Run: saggar check\n');
  });

  it.each([
    'mug',
    'rotunda',
    'market',
    'gallery',
    'k260418mt',
    'a260308kt',
    'm260110ab',
    'b260105ab',
  ])('shows %s', async (id) => {
    const { status, err } = await run(show, small(), { words: [id] });
    expect([status, err]).toEqual([0, '']);
  });
});
