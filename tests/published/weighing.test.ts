/** What is weighed out for a mix and what is in slop, through the command, against values printed elsewhere. */
import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import { slopOfDry, slopOfVolume } from '../../src/number/slop.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const MATERIALS = ['feldspar', 'quartz', 'whiting', 'kaolin', 'cobalt', 'iron'];

const FILES = {
  'studio.yaml': 'format: 1\nname: Lane End Pottery\ncurrency: USD\n',
  'materials.yaml': MATERIALS.map((id) => `${id}: { name: ${id}, kind: dry, unit: kg }\n`).join(''),
  'bought.yaml': `b1:
  date: 2025-01-01
  supplier: Pit
  lines:
${MATERIALS.map((id) => `    - { material: ${id}, quantity: 3 kg, cost: 12.00 }`).join('\n')}
`,
  'recipes.yaml': `blue:
  name: Blue
  kind: glaze
  density-of-solids: 2.5
  versions:
    - from: 2025-01-01
      base:
        - { material: feldspar, parts: 40 }
        - { material: quartz, parts: 30 }
        - { material: whiting, parts: 20 }
        - { material: kaolin, parts: 10 }
      additions:
        - { material: cobalt, percent: 2% }
        - { material: iron, percent: 8% }
plain:
  name: Plain
  kind: glaze
  versions:
    - from: 2025-01-01
      base:
        - { material: feldspar, parts: 1 }
        - { material: kaolin, parts: 1 }
`,
};

interface Sheet {
  readonly rows: readonly Readonly<Record<string, string | null>>[];
  readonly notes: readonly string[];
}

async function sheet(more: string, options: Record<string, string | boolean> = {}): Promise<Sheet> {
  const asked = { ...options, as: 'json', asOf: '2025-02-01' };
  const { out, complaints } = await runCommand('weigh', asked, {
    argument: 'blue',
    folder: tempStudio(FILES),
    more: [more],
  });
  expect(complaints).toBe('');
  return JSON.parse(out) as Sheet;
}

function column({ rows }: Sheet, key: string): number[] {
  return rows.map((row) => Number(row[key] ?? NaN));
}

describe('weighing out', () => {
  // A base of 40/30/20/10 with 2 % and 8 % on top (computed beforehand; additions on top of 100 as in
  // potters.org/subject82414.htm).
  it('5,000 g of base is 2,000, 1,500, 1,000 and 500 g, then 100 and 400 g: 5,500 g on the scales', async () => {
    const asked = await sheet('5 kg');
    expect(column(asked, 'weight')).toEqual([2000, 1500, 1000, 500, 100, 400]);
    expect(column(asked, 'running')).toEqual([2000, 3500, 4500, 5000, 5100, 5500]);
    // Of 3 kg of each at 4.00 a kg.
    expect(column(asked, 'left')).toEqual([1, 1.5, 2, 2.5, 2.9, 2.6]);
    expect(column(asked, 'cost')).toEqual([8, 6, 4, 2, 0.4, 1.6]);
  });

  it('5,000 g in all has a base of 4,545.45 g', async () => {
    const running = column(await sheet('5000 g', { total: true }), 'running');
    expect(running[3]?.toFixed(2)).toBe('4545.45');
    expect(running.at(-1)).toBe(5000);
  });

  // Brongniart's formula: a litre that weighs 1,500 g, of solids of 2.5 g/mL, has 833.3 g of dry material
  // and 666.7 g of water in it (potters.org/subject11877.htm).
  it('a litre at 1.5 has 833.3 g dry and 666.7 g of water', async () => {
    const asked = await sheet('1 L', { gravity: '1.5' });
    const [dry, water] = [column(asked, 'running').at(-2), column(asked, 'weight').at(-1)];
    expect(dry).toBe(833.3);
    expect(water?.toFixed(1)).toBe('666.6');
    expect(asked.notes.join(' ')).toContain('Makes 1.00 L at a specific gravity of 1.5');
    const exact = slopOfVolume(decimal(1000), { gravity: decimal('1.5'), solids: decimal('2.5') });
    expect([exact.dry.toFixed(1), exact.water.toFixed(1)]).toEqual(['833.3', '666.7']);
    const back = slopOfDry(exact.dry, { gravity: decimal('1.5'), solids: decimal('2.5') });
    expect(back.volume.toFixed(6)).toBe('1000.000000');
  });

  it('more than there is says so, and what records the mix', async () => {
    const { notes, rows } = await sheet('10 kg');
    expect(rows[0]).toMatchObject({ material: 'feldspar', left: '-1' });
    const said = { argument: 'blue', folder: tempStudio(FILES), more: ['10 kg'] };
    const { out } = await runCommand('weigh', { asOf: '2025-02-01' }, said);
    expect(out.split('\n')[3]).toBe('There is not enough feldspar in stock.');
    expect(notes.at(-1)).toContain('saggar add mixed --recipe blue --base-weight "10 kg"');
  });
});

describe('a line blend', () => {
  it('goes in equal steps from one recipe to the other, additions with their recipe', async () => {
    const { rows } = await sheet('100 g', { blend: 'plain', steps: '3' });
    // Worked by hand: 40 and 50 of feldspar, 10 and 50 of kaolin, the rest of blue alone.
    expect(
      rows.map(({ material, mix1, mix2, mix3 }) => [material, mix1, mix2, mix3].join(' ')),
    ).toEqual([
      'feldspar 40 45 50',
      'quartz 30 15 0',
      'whiting 20 10 0',
      'kaolin 10 30 50',
      'cobalt 2 1 0',
      'iron 8 4 0',
    ]);
  });
});

describe('what can not be weighed', () => {
  it.each([
    [[], {}, 'say how much of blue'],
    [['some'], {}, '"some" is not an amount to weigh'],
    [['0 kg'], {}, '"0 kg" is not an amount to weigh'],
    [['5'], {}, '"5" is neither a weight nor a volume'],
    [['12 L'], {}, 'needs its specific gravity, such as --gravity 1.45'],
    [['1 kg'], { gravity: '1' }, '--gravity takes a number between 1 and 2.5'],
    [['1 kg'], { gravity: '2.5' }, '--gravity takes a number between 1 and 2.5'],
    [['1 kg'], { steps: '3' }, '--steps goes with --blend only'],
    [['1 kg'], { blend: 'plain', steps: '1' }, '--steps takes a number from 2 to 11'],
    [['1 kg'], { blend: 'plan' }, 'did you mean plain?'],
    [['1 kg'], { asOf: '2024-12-31' }, 'blue has no version by 2024-12-31'],
  ])('is said: %j %j', async (more, options, words) => {
    const scene = { argument: 'blue', folder: tempStudio(FILES), more };
    const { status, out, complaints } = await runCommand('weigh', options, scene);
    expect([status, out]).toEqual([2, '']);
    expect(complaints).toContain(words);
  });
});
