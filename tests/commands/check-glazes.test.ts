/** Glazes that are named nowhere: said once on standard error, and no fault. */
import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const STUDIO = {
  'studio.yaml': 'format: 1\nname: Hill Street\ncurrency: USD\n',
  'recipes.yaml': ['rust', 'blue']
    .map(
      (id) =>
        `${id}:\n  name: ${id}\n  kind: glaze\n  versions:\n    - { from: 2026-01-01, base: [{ material: silica, parts: 100 }] }\n`,
    )
    .join(''),
  'materials.yaml': 'silica:\n  name: Silica\n  kind: dry\n  unit: kg\n',
  'products.yaml': 'mug:\n  name: Mug\n  fired: [glaze]\n  price: 20.00\n',
  'kilns.yaml': 'kiln:\n  name: Kiln\n  fuel: wood\n  space: 20\n',
  'channels.yaml': 'door:\n  name: Door\n  kind: direct\n',
  'bought.yaml':
    'b1:\n  date: 2026-01-01\n  supplier: Pit\n  lines:\n    - { material: silica, quantity: 5 kg, cost: 5.00 }\n',
  'mixed.yaml':
    'm1:\n  date: 2026-01-01\n  recipe: rust\n  base-weight: 1 kg\nm2:\n  date: 2026-01-01\n  recipe: blue\n  base-weight: 1 kg\n',
  'firings.yaml':
    'f1:\n  date: 2026-01-02\n  kiln: kiln\n  kind: glaze\n  load:\n    - { lot: p1, in: 6, first: 6 }\n    - { lot: p2, in: 4, first: 4 }\n',
};

const lots = (second: string): string =>
  `p1:\n  date: 2026-01-01\n  product: mug\n  made: 6\n  glazes:\n    - { recipe: rust, each: 20 g }\np2:\n  date: 2026-01-01\n  product: mug\n  made: 4\n${second}`;
const BLUE = '  glazes:\n    - { recipe: blue, each: 20 g }\n';

const sales = (...lines: string[]): string =>
  lines
    .map(
      (line, at) =>
        `s${at}:\n  date: 2026-02-0${at + 1}\n  channel: door\n  lines:\n    - { product: mug, ${line} }\n`,
    )
    .join('');

/** What is said at first, and again from what was remembered of the first time. */
async function complaintsOf(files: Record<string, string>): Promise<string> {
  const folder = tempStudio({ ...STUDIO, ...files });
  const check = (): ReturnType<typeof runCommand> =>
    runCommand('check', { strict: true, asOf: '2026-06-30' }, { folder });
  const strict = await check();
  expect(strict).toMatchObject({ status: 0, out: 'No problems found.\n' });
  expect(await check()).toEqual(strict);
  return strict.complaints;
}

describe('check --strict', () => {
  it('says once how many lines name no glaze, with the first of them, and finds no fault', async () => {
    const sold = sales(
      'count: 1, price: 20.00, glaze: blue',
      'count: 1, price: 20.00',
      'count: 2, price: 20.00',
    );
    expect(await complaintsOf({ 'pieces.yaml': lots(BLUE), 'sales.yaml': sold })).toBe(
      'saggar: 2 lines without a lot or a glaze, where pieces with different glazes were there (first: sales.yaml:10), so what is left of each glaze is uncertain; name the glaze, or count what is there by glaze\n',
    );
  });

  it('says how many lots name no glaze where others of the product do', async () => {
    expect(await complaintsOf({ 'pieces.yaml': lots('') })).toBe(
      'saggar: 1 lot without a glaze, though others of the product have one (first: pieces.yaml:7); add the glazes, or an empty list where there are none\n',
    );
  });

  it('says nothing where every glaze is named', async () => {
    const sold = sales('count: 1, price: 20.00, glaze: blue');
    expect(await complaintsOf({ 'pieces.yaml': lots(BLUE), 'sales.yaml': sold })).toBe('');
  });
});
