/** A small sound studio with records of every kind, for the tests of writing things down. */
import { knowledgeIn } from '../../src/commands/studio/judged.ts';
import { lexiconOf, type Lexicon } from '../../src/entry/lexicon.ts';
import type { OpenedStudio } from '../../src/entry/plan.ts';
import { NO_MEMORY } from '../../src/read/kept/memory.ts';
import { readStudio } from '../../src/read/read.ts';
import { rawFile } from './file-views.ts';
import { tempStudio } from './temp-studio.ts';

/** The day that the small studio is looked at. */
export const TODAY = '2026-05-01';

/** Path → text. */
export const SMALL_STUDIO: Readonly<Record<string, string>> = {
  'studio.yaml': 'format: 1\nname: Small studio\ncurrency: USD\n',
  'materials.yaml': `buff-stoneware:
  name: Buff stoneware
  kind: clay
  unit: lb

kaolin: # the good one
  name: Kaolin
  kind: dry
  unit: kg

feldspar:
  name: Feldspar
  kind: dry
  unit: kg

cobalt:
  name: Cobalt carbonate
  kind: colourant
  unit: g

cone-6:
  name: Cones
  kind: cone
  unit: each

propane:
  name: Propane
  kind: fuel
  unit: lb

box-small:
  name: Small box
  kind: packing
  unit: each
`,
  'recipes.yaml': `sea-green:
  name: Sea green
  kind: glaze
  cone: "6"
  versions:
    - from: 2026-01-01
      base:
        - { material: feldspar, parts: 60 }
        - { material: kaolin, parts: 40 }

celadon:
  name: Celadon
  kind: glaze
  cone: "6"
  versions:
    - from: 2026-01-01
      base:
        - { material: feldspar, parts: 100 }
`,
  'products.yaml': `mug:
  name: Mug
  clay: { material: buff-stoneware, each: 1 lb }
  glazes:
    - { recipe: sea-green, each: 30 g }
  price: 38.50
  wholesale: 20
  second: 24.00

bowl:
  name: Bowl
  clay: { material: buff-stoneware, each: 2 lb }
  price: 44
`,
  'classes.yaml': 'evening-class:\n  name: Evening class\n  starts: 2026-03-01\n  fee: 180.00\n',
  'kilns.yaml': 'rotunda:\n  name: Rotunda\n  fuel: electricity\n',
  'tariffs.yaml': 'power:\n  from: 2026-01-01\n  fuel: electricity\n  price: 0.2\n  per: kWh\n',
  'channels.yaml': `market:
  name: Market
  kind: fair

shop:
  name: Shop
  kind: wholesale

gallery:
  name: Gallery
  kind: consignment
  commission: 40%
`,
  'advances/2026-03.yaml':
    'a260308kt:\n  date: 2026-03-08\n  for: deposit\n  amount: 50.00\n  order: a tea set\n',
  'orders/2026.yaml':
    'o260308kt:\n  date: 2026-03-08\n  buyer: Kate T.\n  lines:\n    - { product: mug, count: 12 }\n',
  'fairs/2026.yaml': 'k260418mt:\n  date: 2026-04-18\n  name: Spring market\n  channel: market\n',
  'bought/2026-01.yaml': `# January
b260105ab:
  date: 2026-01-05
  supplier: Pit
  lines:
    - { material: buff-stoneware, quantity: 200 lb, cost: 100.00, lot: "7734" }
    - { material: kaolin, quantity: 20 kg, cost: 30.00 }
    - { material: feldspar, quantity: 20 kg, cost: 40.00 }
    - { material: cobalt, quantity: 500 g, cost: 60.00 }
    - { material: cone-6, quantity: 50, cost: 25.00 }
`,
  'mixed/m260110ab.yaml': `m260110ab:
  date: 2026-01-10
  recipe: sea-green
  base-weight: 4 kg
`,
  'pieces/p260301ab.yaml': `p260301ab:
  date: 2026-03-01
  product: mug
  made: 24
`,
  'pieces/p260302cd.yaml': `p260302cd:
  date: 2026-03-02
  product: bowl
  made: 6
  title: The blue one
  price: 120.00
`,
  'firings/f260310ab.yaml': `f260310ab:
  date: 2026-03-10
  kiln: rotunda
  kind: bisque
  cone: "04"
  meter: { before: 100, after: 140.5 }
  load:
    - { lot: p260301ab, in: 24, first: 24 }
`,
  'firings/f260320cd.yaml': `f260320cd:
  date: 2026-03-20
  kiln: rotunda
  kind: glaze
  cone: "6"
  meter: { before: 140.5, after: 200 }
  load:
    - { lot: p260301ab, in: 20, first: 17, second: 2, lost: 1, why: { cracked: 1 } }
`,
  'firings/f260430ef.yaml': `f260430ef:
  date: 2026-04-30
  kiln: rotunda
  kind: bisque # still in the kiln
  energy: 40 kWh
  load:
    - { lot: p260302cd, in: 6 }
    - { class: evening-class, in: 5 }
    - { outside: a neighbour, in: 3 }
`,
  'sales/2026-04.yaml': `# April

s260401ab:
  date: 2026-04-01
  channel: market
  lines:
    - { product: mug, count: 2, price: 38.50 }
    - { product: mug, grade: second, count: 1, price: 24.00 }

# the big one
s260402cd:
  date: 2026-04-02
  channel: market
  buyer: Puddle Coffee
  lines:
    - product: mug
      count: 4 # all they had room for
      price: 36
  discount: 10%
`,
};

/** The small studio in a folder of its own, with more files or others in their place. */
export function small(more: Readonly<Record<string, string>> = {}): string {
  return tempStudio({ ...SMALL_STUDIO, ...more });
}

/** Opens a studio in a folder as a command does, without a memory. */
export async function openFolder(folder: string, asOf = TODAY): Promise<OpenedStudio> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if ('refused' in reading) throw new Error(reading.refused);
  const { judge } = knowledgeIn(NO_MEMORY, asOf);
  const { taken, book, findings } = judge(reading);
  return { folder, reading, taken, judge, book, findings, asOf };
}

/** The words of the small studio, without a disk. */
export function smallLexicon(): Lexicon {
  const files = Object.entries(SMALL_STUDIO).map(([file, text]) => {
    const kind = file.replace(/(?:\/.*|\.yaml)$/, '') as Parameters<typeof rawFile>[0];
    return rawFile(kind, text, file);
  });
  return lexiconOf(files);
}
