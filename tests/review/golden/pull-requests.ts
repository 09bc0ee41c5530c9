/** Invented pull requests on a copy of the example studio: what each does to the files. */
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { filesIn } from '../../helpers/temp-studio.ts';
import { append, edit, recordIn, type Work } from './edits.ts';
import { SLIPS } from './slips.ts';

const honestWeek: Work = (folder) => {
  append(
    folder,
    'sales/2026-06.yaml',
    `s260629ta:
  date: 2026-06-29
  channel: online
  buyer: web order 1177
  lines:
    - { product: bud-vase, glaze: river-blue, count: 1, price: 32.00 }
    - { product: tumbler, glaze: river-blue, count: 2, price: 34.00 }
  shipping: 12.50
  tax: 7.00
`,
  );
  append(
    folder,
    'spent/2026-06.yaml',
    `s260629po:
  date: 2026-06-29
  to: Post office
  for: freight-out
  amount: 11.80
`,
  );
  append(
    folder,
    'used/2026-06.yaml',
    `u260629kw:
  date: 2026-06-29
  material: kiln-wash
  quantity: 0.5 lb
`,
  );
};

const factorTen: Work = (folder) => {
  append(
    folder,
    'sales/2026-06.yaml',
    `s260630zz:
  date: 2026-06-30
  channel: door
  lines:
    - { product: tumbler, glaze: river-blue, count: 1, price: 340.00 }
`,
  );
};

const deletedSale: Work = (folder) => {
  const file = 'sales/2026-03.yaml';
  edit(folder, file, [recordIn(folder, file, 's260310kr'), '']);
};

const recipeTweak: Work = (folder) => {
  edit(folder, 'recipes.yaml', [
    '{ material: boron-frit, parts: 21 }',
    '{ material: boron-frit, parts: 24 }',
  ]);
};

const priceRise: Work = (folder) => {
  edit(folder, 'products.yaml', [
    'price: 40.00\n  wholesale: 20.00\n  second: 26.00',
    'price: 44.00\n  wholesale: 22.00\n  second: 28.00',
  ]);
};

const reorganised: Work = (folder) => {
  for (const file of readdirSync(join(folder, 'sales'))) {
    const [year = '', month = ''] = file.split('-');
    const text = readFileSync(join(folder, 'sales', file), 'utf8');
    mkdirSync(join(folder, 'sales', year), { recursive: true });
    writeFileSync(join(folder, 'sales', year, month), `# moved\n${text}`);
    rmSync(join(folder, 'sales', file));
  }
  const spent = readFileSync(join(folder, 'spent/2026-06.yaml'), 'utf8');
  writeFileSync(join(folder, 'spent/2026-06.yaml'), spent.replaceAll('\n', '\r\n'));
};

const doubledOneOff: Work = (folder) => {
  const file = 'sales/2026-06.yaml';
  const text = readFileSync(join(folder, file), 'utf8');
  const before = text.slice(0, text.indexOf('lot: p260218gx'));
  const id = /^(s\w+):$/gm;
  const last = [...before.matchAll(id)].at(-1)?.[1] ?? '';
  append(
    folder,
    file,
    recordIn(folder, file, last)
      .replace(last, `${last.slice(0, 7)}qq`)
      .trimEnd() + '\n',
  );
};

const hiddenLoss: Work = (folder) => {
  edit(folder, 'firings/2026/f260511cq.yaml', [
    '{ lot: p260421vx, in: 17, first: 15, lost: 2, why: { cracked: 2 }, space: 0.6 }',
    '{ lot: p260421vx, in: 17, first: 17, space: 0.6 }',
  ]);
};

const redated: Work = (folder) => {
  edit(folder, 'spent/2026-04.yaml', ['date: 2026-04-01', 'date: 2026-03-31']);
};

const renamedProduct: Work = (folder) => {
  for (const [file, text] of Object.entries(filesIn(folder)))
    writeFileSync(
      join(folder, file),
      text.replace(/^mug:/m, 'mug-large:').replaceAll(/product: mug\b(?!-)/g, 'product: mug-large'),
    );
};

/** By the name of the golden file. */
export const PULL_REQUESTS: Readonly<Record<string, Work>> = {
  'honest-week': honestWeek,
  'factor-ten': factorTen,
  'deleted-sale': deletedSale,
  'recipe-tweak': recipeTweak,
  'price-rise': priceRise,
  reorganised,
  'doubled-one-off': doubledOneOff,
  'hidden-loss': hiddenLoss,
  redated,
  'renamed-product': renamedProduct,
  ...SLIPS,
};
