/** One record of each kind as it is typed; all of them are sound in the example studio. */
import type { Kind } from '../book.ts';

/** Options and values of a record, in turns. */
const EXAMPLES: Readonly<Record<Kind, readonly string[]>> = {
  materials: ['--name', 'Talc', '--kind', 'dry', '--unit', 'kg', '--reorder-at', '5 kg'],
  recipes: [
    ...['--name', 'Fog', '--kind', 'glaze', '--cone', '6'],
    ...['--base', '60 nepheline', '--base', '40 silica', '--addition', '8% zircon'],
  ],
  products: [
    ...['--name', 'Butter dish', '--clay-material', 'stoneware-buff', '--clay-each', '1.5 lb'],
    ...['--glaze', '40 g sea-green', '--packing', '1 carton-small', '--price', '48'],
  ],
  classes: [
    ...['--name', 'Handles and lids', '--starts', '2026-09-12', '--sessions', '4'],
    ...['--hours', '2.5', '--places', '6', '--fee', '160'],
  ],
  kilns: [
    '--name',
    'Test kiln',
    '--fuel',
    'electricity',
    '--power',
    '2.4 kW',
    '--duty',
    '60% test',
  ],
  tariffs: [
    ...['--from', '2026-07-01', '--fuel', 'electricity', '--price', '0.19', '--per', 'kWh'],
    ...['--band', '16:00-21:00 mon tue wed thu fri at 0.31'],
  ],
  channels: ['--name', 'Harbour shop', '--kind', 'consignment', '--commission', '35%'],
  bought: [
    ...['--supplier', 'Hill Road Clay', '--invoice', '0417', '--freight', '18.50'],
    ...['--line', '4 x 25 lb stoneware-buff for 92.00 lot 7734', '--line', '40 cone-6 for 22.00'],
  ],
  reclaimed: ['--material', 'reclaim', '--quantity', '12 lb'],
  mixed: ['--recipe', 'white-slip', '--base-weight', '500 g', '--gravity', '1.45'],
  pieces: ['--product', 'mug', '--made', '12', '--lost', '1 cracked'],
  firings: [
    ...['--kiln', 'big-kiln', '--kind', 'bisque', '--cone', '05', '--energy', '41.6 kWh'],
    ...['--supply', '2 cone-05', '--in', '6 hand-2026-april', '--in', "3 for a neighbour's bowls"],
  ],
  used: ['--material', 'kaolin', '--quantity', '2 lb', '--for', 'test'],
  counted: [
    '--material',
    '12.5 lb kaolin',
    '--piece',
    '23 mug oatmeal first why one more was found',
  ],
  orders: ['--buyer', 'Ines', '--due', '2026-09-14', '--line', '6 mug oatmeal at 36'],
  sales: ['--channel', 'door', '--line', '1 mug oatmeal at 38', '--line', '1 tumbler second'],
  advances: [
    ...['--for', 'deposit', '--amount', '60.00', '--channel', 'door', '--buyer', 'Ines'],
    ...['--order', 'a tea set for four'],
  ],
  consigned: ['--channel', 'gallery', '--sent', '2 mug oatmeal at 40'],
  fairs: [
    ...['--date', '2026-06-27', '--name', 'Ferry Green Fair', '--channel', 'ferry-fair'],
    ...['--hours', '9', '--place', 'Ferry Green'],
  ],
  spent: [
    '--to',
    'Ferry Green Fair',
    '--for',
    'booth',
    '--amount',
    '120.00',
    '--channel',
    'ferry-fair',
  ],
  tests: [
    '--kind',
    'tile',
    '--recipe',
    'rust',
    '--change',
    'plus 2 red iron',
    '--result',
    'glossy',
  ],
  filed: [
    ...['--date', '2026-01-15', '--period', '2025', '--sheet', 'plain'],
    ...['--line', '27960.53 20'],
  ],
};

/** The example's options and values, as a program gets them. */
export function exampleWords(kind: Kind): readonly string[] {
  return EXAMPLES[kind];
}
