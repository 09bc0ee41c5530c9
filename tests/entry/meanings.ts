/** What the examples of all forms of sentences come to. */

/** What each example of the table says, by kind and field. */
export const MEANINGS: Readonly<Record<string, readonly unknown[]>> = {
  'materials analysis': [{ SiO2: '64.5%' }],
  'recipes versions.base': [[{ material: 'feldspar', parts: '40' }]],
  'recipes versions.additions': [[{ material: 'cobalt', percent: '2%' }]],
  'products glazes': [
    [{ recipe: 'sea-green', each: '30 g' }],
    [{ recipe: 'celadon', each: '12 g', where: 'on the rim' }],
  ],
  'products packing': [
    [{ material: 'box-small', each: '1' }],
    [{ material: 'paper', each: '40 g' }],
  ],
  'kilns duty': [{ bisque: '50%' }],
  'kilns wear': [[{ part: 'elements', cost: '240', firings: '150', fitted: '2025-11-02' }]],
  'tariffs bands': [
    [{ hours: '16:00-21:00', days: ['mon', 'tue', 'wed', 'thu', 'fri'], price: '0.42' }],
  ],
  'bought lines': [
    [{ material: 'buff-stoneware', quantity: '4 x 25 lb', cost: '92.00', lot: '7734' }],
    [{ material: 'cone-6', quantity: '200', cost: '18.50' }],
    [{ material: 'cone-6', quantity: '200', cost: '18.50', weight: '3 kg' }],
  ],
  'mixed lots': [{ kaolin: '7734' }],
  'pieces glazes': [
    [{ recipe: 'sea-green', each: '30 g' }],
    [{ recipe: 'celadon', each: '12 g', where: 'on the rim' }],
  ],
  'pieces mixes': [{ 'sea-green': 'm260301kt' }],
  'pieces lost': [[{ date: '2026-03-04', count: '2', why: 'cracked' }]],
  'pieces gone': [
    [{ date: '2026-04-01', count: '1', how: 'gift' }],
    [
      {
        date: '2026-04-20',
        count: '1',
        how: 'broken',
        grade: 'second',
        channel: 'gallery',
        note: 'fell over',
      },
    ],
  ],
  'firings fuel-used': ['8.2 m3-gas', { material: 'propane', quantity: '12 lb' }],
  'firings supplies': [
    [{ material: 'cone-6', quantity: '3' }],
    [{ material: 'kaolin', quantity: '200 g' }],
  ],
  'firings load': [
    [{ lot: 'p260301ab', in: '24' }],
    [{ class: 'evening-class', in: '6' }],
    [{ outside: "neighbour's bowls", in: '4' }],
    [
      {
        lot: 'p260301ab',
        in: '24',
        first: '22',
        second: '1',
        lost: '1',
        why: { cracked: '1' },
      },
    ],
    [
      {
        lot: 'p260301ab',
        in: '24',
        first: '21',
        second: '2',
        lost: '1',
        why: { ran: '2', stuck: '1' },
        'lost-to': { stuck: '1' },
      },
    ],
    [{ lot: 'p260301ab', in: '3', refire: 'yes' }],
  ],
  'counted materials': [
    [{ material: 'buff-stoneware', quantity: '37.5 lb' }],
    [{ material: 'kaolin', quantity: '0 kg', why: 'the bag was wet' }],
    [{ material: 'kaolin', quantity: '50 kg', cost: '61.50' }],
  ],
  'counted pieces': [
    [{ product: 'mug', glaze: 'sea-green', grade: 'first', place: 'gallery', count: '12' }],
    [{ product: 'bowl', count: '5' }],
    [{ product: 'mug', lot: 'p260301ab', stage: 'bisqueware', count: '20', cost: '61.50' }],
  ],
  'orders lines': [
    [{ product: 'mug', glaze: 'sea-green', count: '12', price: '36' }],
    [{ for: 'a platter with a heron on it', count: '1', price: '140' }],
    [{ product: 'bowl', count: '6', price: '44', note: 'names on the feet' }],
  ],
  'sales lines': [
    [{ product: 'mug', count: '2', price: '38' }],
    [
      {
        product: 'mug',
        glaze: 'sea-green',
        grade: 'second',
        count: '1',
        price: '20',
        discount: '2.00',
      },
    ],
    [{ product: 'bowl', lot: 'p260301ab', count: '3', price: '44' }],
    [{ class: 'evening-class', count: '2', price: '180' }],
    [{ for: 'repair work', count: '1', price: '15' }],
    [{ product: 'mug', count: '1', price: '38', returned: 'yes' }],
    [
      {
        product: 'mug',
        'for-order': 'o260308kt',
        glaze: 'sea-green',
        count: '12',
        price: '36',
      },
    ],
    [{ product: 'mug', count: '2', price: '38.50' }],
  ],
  'sales advances': [[{ advance: 'a260308kt', amount: '50.00' }]],
  'advances refunded': [[{ date: '2026-04-02', amount: '50.00' }]],
  'consigned sent': [[{ product: 'mug', glaze: 'sea-green', count: '6', price: '40' }]],
  'consigned back': [[{ product: 'mug', count: '2' }]],
  'consigned missing': [[{ product: 'mug', count: '1', owed: '24' }]],
  'fairs take': [
    [{ product: 'mug', glaze: 'sea-green', count: '24' }],
    [{ product: 'bowl', grade: 'second', count: '6' }],
  ],
  'filed lines': [{ '31': '4980.25' }, { 'net-profit': '-210' }],
};

/** Ids of the table's examples that the small studio has under other names. */
export const ELSEWHERE: Readonly<Record<string, string>> = {
  'iron-wash': 'celadon',
  'kiln-wash': 'kaolin',
};
