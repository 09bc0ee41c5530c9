/** A small invented studio in its third week, for recording a fourth. */

/** Path → text: what is defined, and three weeks of records. */
export const THREE_WEEKS: Readonly<Record<string, string>> = {
  'studio.yaml': 'format: 1\nname: Alder bench\ncurrency: USD\n',
  'materials.yaml': `buff-clay:
  name: Buff clay
  kind: clay
  unit: lb

feldspar:
  name: Feldspar
  kind: dry
  unit: kg

kaolin:
  name: Kaolin
  kind: dry
  unit: kg
`,
  'recipes.yaml': `sea-green:
  name: Sea green
  kind: glaze
  cone: "6"
  versions:
    - from: 2026-05-01
      base:
        - { material: feldspar, parts: 60 }
        - { material: kaolin, parts: 40 }
`,
  'products.yaml': `mug:
  name: Mug
  clay: { material: buff-clay, each: 1 lb }
  glazes:
    - { recipe: sea-green, each: 30 g }
  price: 30.00
  second: 20.00

bowl:
  name: Bowl
  clay: { material: buff-clay, each: 2 lb }
  glazes:
    - { recipe: sea-green, each: 50 g }
  price: 40.00
  second: 25.00

vase:
  name: Vase
  clay: { material: buff-clay, each: 3 lb }
  glazes:
    - { recipe: sea-green, each: 60 g }
  price: 90.00
  second: 60.00
`,
  'classes.yaml': 'wheel-class:\n  name: Wheel class\n  starts: 2026-07-01\n  fee: 160.00\n',
  'kilns.yaml': 'front-kiln:\n  name: Front kiln\n  fuel: electricity\n',
  'tariffs.yaml': 'power:\n  from: 2026-01-01\n  fuel: electricity\n  price: 0.2\n  per: kWh\n',
  'channels.yaml': `door:
  name: Studio door
  kind: direct

square:
  name: Market on the square
  kind: fair
  fee-percent: 2%

gallery:
  name: Gallery
  kind: consignment
  commission: 40%
`,
  'bought.yaml': `b260518pl:
  date: 2026-05-18
  supplier: Pit lane
  lines:
    - { material: buff-clay, quantity: 400 lb, cost: 200.00 }
    - { material: feldspar, quantity: 20 kg, cost: 40.00 }
    - { material: kaolin, quantity: 20 kg, cost: 30.00 }
  paid: 2026-06-01
`,
  'mixed.yaml': `m260519aa:
  date: 2026-05-19
  recipe: sea-green
  base-weight: 6 kg
`,
  'pieces.yaml': `p260519mu:
  date: 2026-05-19
  product: mug
  made: 60

p260519bo:
  date: 2026-05-19
  product: bowl
  made: 30

p260519va:
  date: 2026-05-19
  product: vase
  made: 12

p260526mu:
  date: 2026-05-26
  product: mug
  made: 24

p260526bo:
  date: 2026-05-26
  product: bowl
  made: 12

p260601mu:
  date: 2026-06-01
  product: mug
  made: 20

p260602bo:
  date: 2026-06-02
  product: bowl
  made: 10
`,
  'firings.yaml': `f260523bi:
  date: 2026-05-23
  kiln: front-kiln
  kind: bisque
  cone: "04"
  energy: 40 kWh
  load:
    - { lot: p260519mu, in: 60, first: 60 }
    - { lot: p260519bo, in: 30, first: 30 }
    - { lot: p260519va, in: 12, first: 12 }

f260527gl:
  date: 2026-05-27
  kiln: front-kiln
  kind: glaze
  cone: "6"
  energy: 60 kWh
  load:
    - { lot: p260519mu, in: 60, first: 56, second: 4 }
    - { lot: p260519bo, in: 30, first: 28, second: 2 }
    - { lot: p260519va, in: 12, first: 12 }

f260603bi:
  date: 2026-06-03
  kiln: front-kiln
  kind: bisque
  cone: "04"
  energy: 41 kWh
  load:
    - { lot: p260526mu, in: 24, first: 24 }
    - { lot: p260526bo, in: 12, first: 12 }
`,
  'consigned.yaml': `c260528ga:
  date: 2026-05-28
  channel: gallery
  sent:
    - { product: mug, count: 6 }
    - { product: bowl, count: 4 }
    - { product: vase, count: 3 }
`,
  'fairs.yaml': `k260530sq:
  date: 2026-05-30
  name: Market on the square
  channel: square

k260613sq:
  date: 2026-06-13
  name: Market on the square
  channel: square
`,
  'advances.yaml': `a260529aa:
  date: 2026-05-29
  for: deposit
  amount: 40.00
  order: a vase
  buyer: Nuala
`,
  'counted.yaml': `n260531aa:
  date: 2026-05-31
  materials:
    - { material: feldspar, quantity: 16.4 kg }
`,
  'sales.yaml': `s260530sq:
  date: 2026-05-30
  channel: square
  lines:
    - { product: mug, count: 4, price: 30.00 }
    - { product: bowl, count: 1, price: 40.00 }
  card: 100.00

s260531ga:
  date: 2026-05-31
  channel: gallery
  statement: 2026-05
  lines:
    - { product: mug, count: 1, price: 30.00 }
  paid: 2026-06-05

s260606do:
  date: 2026-06-06
  channel: door
  lines:
    - { product: mug, count: 1, price: 30.00 }
    - { product: bowl, count: 1, price: 40.00 }
`,
};
