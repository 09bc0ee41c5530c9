import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

describe('saggar materials', () => {
  it.each([
    [{ year: '2026' }, undefined, '--year goes with --where only'],
    [{ from: '2026-01-01' }, undefined, '--from goes with --where only'],
    [{ to: '2026-01-31' }, 'kaolin', '--to goes with --where only'],
    [{ from: '2026-01-01' }, undefined, 'use --as-of, for the days that usage is measured over'],
    [{ where: true, window: '30' }, undefined, '--where measures no usage; leave out --window'],
    [{ window: '30' }, 'kaolin', '--window is of all materials; leave it out, or leave out kaolin'],
    [{ where: true }, 'kaolin', '--where is of all materials; leave out kaolin'],
  ])('refuses %j %s, which it would pass over', async (options, argument, words) => {
    const scene = argument === undefined ? {} : { argument };
    const { status, out, complaints } = await runCommand('materials', options, scene);
    expect([status, out]).toEqual([2, '']);
    expect(complaints).toContain(words);
  });

  it.each([
    [{ where: true, year: '2026' }, undefined],
    [{ where: true, from: '2026-01-01', to: '2026-03-31' }, undefined],
    [{ window: '30', asOf: '2026-03-31' }, undefined],
    [{ asOf: '2026-03-31' }, 'kaolin'],
  ])('takes %j %s', async (options, argument) => {
    const scene = argument === undefined ? {} : { argument };
    expect((await runCommand('materials', options, scene)).status).toBe(0);
  });
});

describe('what is to order', () => {
  // Nothing was ever recorded of clay and glaze; sand is used up and still used; grog is below its mark;
  // chalk was counted down to nothing long ago and is not used any more.
  const FILES = {
    'studio.yaml': 'format: 1\nname: Fresh\ncurrency: EUR\n',
    'materials.yaml': `clay: { name: White clay, kind: clay, unit: kg }
glaze: { name: Clear, kind: dry, unit: kg, reorder-at: 2 kg }
`,
  };
  const USED = {
    'materials.yaml': `${FILES['materials.yaml']}sand: { name: Sand, kind: dry, unit: kg }
grog: { name: Grog, kind: dry, unit: kg, reorder-at: 3 kg, lead-days: 5 }
chalk: { name: Chalk, kind: dry, unit: kg }
`,
    'bought.yaml': `b1: { date: 2026-03-01, supplier: Pit, lines: [{ material: sand, quantity: 6 kg, cost: 3 }, { material: grog, quantity: 6 kg, cost: 3 }] }
`,
    'used.yaml': `u1: { date: 2026-03-02, material: sand, quantity: 6 kg }
u2: { date: 2026-03-02, material: grog, quantity: 6 kg }
`,
    'counted.yaml': 'c1: { date: 2025-01-01, materials: [{ material: chalk, quantity: 0 kg }] }\n',
  };

  it.each([
    [{}, 'Nothing.', 'Nothing has to be ordered today.'],
    [USED, 'Grog (out); Sand (out).', 'Order 2 materials now: Grog (out) and Sand (out).'],
  ])('is the same in the list and at the day’s end', async (more, said, above) => {
    const folder = tempStudio({ ...FILES, ...more });
    const asOf = '2026-03-10';
    const day = await runCommand('day', { asOf }, { folder });
    expect(day.out).toMatch(new RegExp(`^To order now +${said.replace(/[().]/g, '\\$&')}$`, 'm'));
    const list = await runCommand('materials', { asOf }, { folder });
    expect(list.complaints).toBe('');
    expect(list.out.split('\n')[3]).toBe(above);
  });
});
