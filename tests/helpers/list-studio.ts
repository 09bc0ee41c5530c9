/** A studio that lists are taken in to: what it sells moves no stock, since its book starts later. */
export const LIST_STUDIO: Readonly<Record<string, string>> = {
  'studio.yaml':
    'format: 1\nname: Tide Mill Pots\ncurrency: EUR\nstarts: 2026-07-01\nweight-unit: kg\n',
  'products.yaml':
    'mug: { name: Mug, clay: { material: stoneware, each: 400 g }, price: 28, second: 18 }\n' +
    'bowl: { name: Bowl, clay: { material: stoneware, each: 700 g }, price: 40 }\n',
  'materials.yaml':
    'stoneware: { name: Stoneware, kind: clay, unit: kg }\nfeldspar: { name: Feldspar, kind: dry, unit: kg }\n',
  'channels.yaml':
    'door: { name: Studio door, kind: direct }\nmarket: { name: Market, kind: direct }\n' +
    'shop: { name: Web shop, kind: online, fee-percent: 2% }\n',
};
