import { describe, expect, it } from 'vitest';
import type { Amendable } from '../../src/entry/amendment.ts';
import { withWholePath } from '../../src/entry/amendment.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { run } from '../helpers/command-world.ts';
import { exampleCopy, filesIn } from '../helpers/temp-studio.ts';

const SALE: Amendable = {
  id: 's1',
  kind: 'sales',
  file: 'sales.yaml',
  raw: {
    date: '2026-04-02',
    lines: [
      { product: 'mug', count: '2', price: '38' },
      { for: 'work', count: '1' },
    ],
  },
};

describe('a change by the name of a value alone', () => {
  it.each([
    ['price=40', 'lines.1.price=40'],
    ['price=', 'lines.1.price='],
    ['product=a=b', 'lines.1.product=a=b'],
    ['note=x', 'note=x'],
    ['discount=5%', 'discount=5%'],
    ['glaze=rust', 'glaze=rust'],
    ['lines.2.count=3', 'lines.2.count=3'],
    ['constructor=4', 'constructor=4'],
    ['=4', '=4'],
  ])('%s is %s', (text, whole) => {
    expect(withWholePath(text, SALE)).toBe(whole);
  });

  it('goes on within the value', () => {
    const load = [
      { lot: 'p1', in: '4' },
      { lot: 'p2', in: '6', why: { cracked: '1' } },
    ];
    const firing: Amendable = { id: 'f1', kind: 'firings', file: 'f.yaml', raw: { load } };
    expect(withWholePath('why.cracked=2', firing)).toBe('load.2.why.cracked=2');
    expect(withWholePath('cracked=2', firing)).toBe('load.2.why.cracked=2');
  });

  it('is refused where several have it, with what to write', () => {
    expect(withWholePath('count=3', SALE)).toEqual({
      refused: 'it has lines.1.count and lines.2.count; say which, as in lines.1.count=3',
    });
  });

  it('corrects one digit in its file, and the undo has the whole path', async () => {
    const folder = exampleCopy();
    const before = filesIn(folder)['sales/2026-06.yaml'] ?? '';
    const words = ['s260613fy', 'price=300.00'];
    const { status, out } = await run(amend, folder, { words, today: '2026-06-30' });
    expect(status).toBe(0);
    expect(out).toContain('lines.1.price=310.00');
    const after = filesIn(folder)['sales/2026-06.yaml'];
    expect(after).toBe(before.replace('count: 1, price: 310.00', 'count: 1, price: 300.00'));
  });
});
