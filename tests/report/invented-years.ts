/** Five invented studios, each with a year as a finished form; each figure is worked by hand in the comment. */
import type { Files } from '../helpers/book.ts';

const BASE = {
  materials: 'clay: { name: Clay, kind: clay, unit: kg }',
  products: 'mug: { name: Mug, clay: { material: clay, each: 1 kg }, fired: [once] }',
  kilns: 'kiln: { name: Kiln, fuel: electricity }',
  channels: 'door: { name: Door, kind: direct }',
};

/**
 * First studio: mugs at the door, the accrual basis. 100 kg of clay for 200.00; 60 mugs of 1 kg; 50 sold
 * at 30.00, one comes back at 30.00. Stock at the end: 40 kg = 80.00 and 11 mugs = 22.00. Expenses: rent
 * 600, advertising 40, bank 12, post 28, car 50 for 100 miles.
 *  1  50 × 30.00 = 1,500.00; 2  30.00; 3  1,470.00; 36  200.00; 41  80.00 + 22.00 = 102.00
 *  42 and 4  200.00 - 102.00 = 98.00; 5 and 7  1,470.00 - 98.00 = 1,372.00
 *  8  40.00; 9  50.00; 20b  600.00; 27b and 48  12.00 + 28.00 = 40.00; 28  730.00
 *  29 and 31  1,372.00 - 730.00 = 642.00
 * Schedule SE: 4a  642.00 × .9235 = 592.887 → 592.89; 10  592.89 × .124 = 73.518 → 73.52
 *  11  592.89 × .029 = 17.194 → 17.19; 12  90.71; 13  45.355 → 45.36
 */
export const MUGS: Files = {
  ...BASE,
  studio: 'format: 1\nname: First\ncurrency: USD\nbasis: accrual\n',
  bought:
    'b1: { date: 2025-01-10, supplier: Pit, lines: [{ material: clay, quantity: 100 kg, cost: 200 }] }',
  pieces: 'p1: { date: 2025-02-01, product: mug, made: 60 }',
  firings:
    'f1: { date: 2025-02-10, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 60, first: 60 }] }',
  sales: `
s1: { date: 2025-03-01, channel: door, lines: [{ product: mug, count: 50, price: 30 }] }
s2: { date: 2025-03-09, channel: door, lines: [{ product: mug, count: 1, price: 30, returned: yes }] }
`,
  spent: `
e1: { date: 2025-02-01, to: Landlord, for: rent-place, amount: 600 }
e2: { date: 2025-03-01, to: Paper, for: advertising, amount: 40 }
e3: { date: 2025-04-01, to: Bank, for: bank, amount: 12 }
e4: { date: 2025-05-01, to: Post, for: freight-out, amount: 28 }
e5: { date: 2025-06-01, to: Garage, for: car, amount: 50, distance: 100 mi }
`,
};

/**
 * Second studio: classes, firing for others and a gallery, on the cash basis; no materials, so no stock.
 * Four places at 120.00 = 480.00; firing 75.00; a gallery sells a bought-in talk for 100.00 and keeps 40 %.
 * A wheel for 1,250.00 (tools), insurance 300.00, a bill of 90.00 that is not paid until the next year.
 *  1  480.00 + 75.00 + 100.00 = 655.00; 5 and 7 the same; 10  40.00; 15  300.00; 22  1,250.00
 *  28  1,590.00; 29 and 31  655.00 - 1,590.00 = -935.00
 * Schedule SE: a loss, so nothing is earned and nothing is owed.
 */
export const CLASSES: Files = {
  ...BASE,
  studio: 'format: 1\nname: Second\ncurrency: USD\nbasis: cash\n',
  channels: `
door: { name: Door, kind: direct }
gallery: { name: Gallery, kind: consignment, commission: 40% }
`,
  classes:
    'thrown: { name: Throwing, starts: 2025-03-01, sessions: 4, hours: 2, places: 8, fee: 120 }',
  sales: `
s1: { date: 2025-02-01, channel: door, lines: [{ class: thrown, count: 4, price: 120 }] }
s2: { date: 2025-04-01, channel: door, lines: [{ for: firing a friend's pots, count: 1, price: 75 }] }
s3: { date: 2025-05-01, channel: gallery, commission: 40, lines: [{ product: mug, count: 1, price: 100 }] }
`,
  spent: `
e1: { date: 2025-01-20, to: Wheel maker, for: tools, amount: 1250, lasts: yes }
e2: { date: 2025-02-20, to: Insurer, for: insurance, amount: 300 }
e3: { date: 2025-12-20, to: Printer, for: advertising, amount: 90, paid: 2026-01-05 }
`,
};

/**
 * Third studio: commissioned work, the car by the rate, the cash basis. Work for 12,000.00 at the door; a
 * tiled table for 400.00 and shipping 20.00 in a shop that keeps 3 %. 1,000 and 234 miles, whose fuel of
 * 275.00 is not deducted; a wheel for 2,800.00 and elements for 2,500.00, both to last; a helper 700.00.
 *  1  12,000.00 + 400.00 + 20.00 = 12,420.00; 5 and 7 the same
 *  9  1,234 × .70 = 863.80; 10  420.00 × .03 = 12.60; 11  700.00; 21  2,500.00; 22  2,800.00; 23  50.00
 *  24a  310.00 + 12.00 parking = 322.00; 24b  half of 81.35 = 40.675 → 40.68
 *  28  7,289.08; 29  5,130.92; 30  600.00; 31  4,530.92; in the book 40.67 of meals more are spent
 * Schedule SE: 4a  4,530.92 × .9235 = 4,184.3046 → 4,184.30; 10  518.8532 → 518.85; 11  121.3447 → 121.34
 *  12  640.19; 13  320.095 → 320.10
 * Paid ahead: by 16 June 10,937.32 × 2.4 = 26,249.57 of profit, taxed 3,005.94 + 703.00, × .45 = 1,669.02,
 * more than the .9 × 640.19 of the year, so nothing more is asked; of last year's tax 3/4 of 800.00 by
 * September, more than the 576.17 that is then all.
 */
export const COMMISSIONS: Files = {
  studio: `format: 1
name: Third
currency: USD
car: mileage
tax-years: [{ year: "2024", tax: 800 }]
`,
  channels: `
door: { name: Door, kind: direct }
shop: { name: Shop, kind: online, fee-percent: 3% }
`,
  sales: `
s1: { date: 2025-03-10, channel: door, lines: [{ for: a mural, count: 1, price: 12000 }] }
s2: { date: 2025-09-10, channel: shop, shipping: 20, lines: [{ for: a tiled table, count: 1, price: 400 }] }
`,
  spent: `
e1: { date: 2025-05-01, to: Garage, for: car, amount: 180, distance: 1000 mi }
e2: { date: 2025-10-01, to: Garage, for: car, amount: 95, distance: 234 mi }
e3: { date: 2025-05-02, to: Inn, for: travel, amount: 310 }
e4: { date: 2025-05-02, to: Car park, for: travel, amount: 12 }
e5: { date: 2025-05-02, to: Diner, for: meals, amount: 81.35 }
e6: { date: 2025-06-01, to: Wheel maker, for: tools, amount: 2800, lasts: yes }
e7: { date: 2025-06-02, to: Kiln shop, for: kiln-parts, amount: 2500, lasts: yes }
e8: { date: 2025-07-01, to: Helper, for: contract, amount: 700 }
e9: { date: 2025-07-02, to: Town, for: licences, amount: 50 }
e10: { date: 2025-12-31, to: Own house, for: home, amount: 600 }
`,
};

/**
 * Fourth studio: mugs wholesale and at the door, the accrual basis, first bought, first used, with stock at
 * both ends. 200 kg of clay for 500.00 and 40 mugs of 1 kg are of 2024: opening 160 kg = 400.00 and 100.00.
 * In 2025 100 kg for 300.00 and freight 20.00, paid in 2026; 52 mugs from the older clay = 130.00, of which
 * 48 come out. 40 sold at 15.00; 30 at 28.00 less 10 %, paid in 2026; then 2 kept, 1 given away.
 *  1  600.00 + 840.00 - 84.00 = 1,356.00; 6  interest 12.00
 *  35  500.00; kept: 130.00 × 32/48 = 86.67 less the 81.25 of the 30 sold = 5.42; 36  320.00 - 5.42 = 314.58
 *  40  814.58; 41  108 kg at 2.50 = 270.00, 320.00, and 130.00 less 33/48 of it, 89.38, = 40.62: 630.62
 *  42 and 4  814.58 - 630.62 = 183.96; 5  1,172.04; 7  1,184.04
 *  20b  480.00; 25  120.00, a bill of December paid in January; 28  600.00; 29 and 31  584.04
 * Schedule SE: 4a  539.3609 → 539.36; 10  66.8806 → 66.88; 11  15.6414 → 15.64; 12  82.52; 13  41.26
 */
export const STOCK: Files = {
  ...BASE,
  studio: 'format: 1\nname: Fourth\ncurrency: USD\nbasis: accrual\nstock-value: first-in\n',
  bought: `
b1: { date: 2024-11-01, supplier: Pit, lines: [{ material: clay, quantity: 200 kg, cost: 500 }] }
b2: { date: 2025-06-01, supplier: Pit, freight: 20, paid: 2026-01-15, lines: [{ material: clay, quantity: 100 kg, cost: 300 }] }
`,
  pieces: `
p1: { date: 2024-12-01, product: mug, made: 40 }
p2:
  date: 2025-07-01
  product: mug
  made: 52
  gone:
    - { date: 2025-12-24, count: 2, how: kept }
    - { date: 2025-12-26, count: 1, how: gift }
`,
  firings: `
f1: { date: 2024-12-10, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 40, first: 40 }] }
f2: { date: 2025-07-10, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p2, in: 52, first: 48, lost: 4 }] }
`,
  channels: `
door: { name: Door, kind: direct }
kitchen: { name: Kitchen goods, kind: wholesale }
`,
  sales: `
s1: { date: 2025-02-01, channel: kitchen, paid: 2025-03-01, lines: [{ product: mug, count: 40, price: 15 }] }
s2: { date: 2025-12-20, channel: door, paid: 2026-01-10, discount: 10%, lines: [{ product: mug, count: 30, price: 28 }] }
s3: { date: 2025-12-31, channel: door, lines: [{ for: interest of the bank, count: 1, price: 12 }] }
`,
  spent: `
e1: { date: 2025-08-01, to: Landlord, for: rent-place, amount: 480 }
e2: { date: 2025-12-31, to: Power, for: utilities, amount: 120, paid: 2026-01-20 }
`,
};

/**
 * Fifth studio: mugs and a class in the United Kingdom, traditional accounting, the tax year from 6 April.
 * 100 kg of clay for 200.00; 40 mugs of 1 kg; 30 sold at 25.00, one comes back; 3 are kept. A class for 200.00,
 * a grant of 150.00.
 *  9  750.00 - 25.00 + 200.00 = 925.00; 10  150.00
 *  11  200.00 less 60 kg = 120.00 and 8 mugs = 16.00: 64.00; 12  60.00; 14  120.00 + 45.00 = 165.00; 15  30.00
 *  16  90.00, a bill of April 2026 paid in May; 17  12.00; 18  18.50; 19  20.00; 20  459.50
 *  21  1,075.00 - 459.50 = 615.50; 27  3 × 25.00 = 75.00; 28 and 31  690.50
 * With the trading allowance instead: 1,075.00 - 1,000.00 = 75.00.
 */
export const BRITISH: Files = {
  ...BASE,
  studio: 'format: 1\nname: Fifth\ncurrency: GBP\nbasis: accrual\nyear-starts: "04-06"\n',
  products: 'mug: { name: Mug, price: 25, clay: { material: clay, each: 1 kg }, fired: [once] }',
  classes:
    'thrown: { name: Throwing, starts: 2025-09-10, sessions: 1, hours: 2, places: 8, fee: 50 }',
  bought:
    'b1: { date: 2025-05-01, supplier: Pit, lines: [{ material: clay, quantity: 100 kg, cost: 200 }] }',
  pieces:
    'p1: { date: 2025-05-02, product: mug, made: 40, gone: [{ date: 2025-12-20, count: 3, how: kept }] }',
  firings:
    'f1: { date: 2025-05-10, kiln: kiln, kind: once, energy: 10 kWh, load: [{ lot: p1, in: 40, first: 40 }] }',
  sales: `
s1: { date: 2025-06-01, channel: door, lines: [{ product: mug, count: 30, price: 25 }] }
s2: { date: 2025-07-06, channel: door, lines: [{ product: mug, count: 1, price: 25, returned: yes }] }
s3: { date: 2025-09-01, channel: door, lines: [{ class: thrown, count: 4, price: 50 }] }
s4: { date: 2025-11-01, channel: door, lines: [{ for: a grant, count: 1, price: 150 }] }
`,
  spent: `
e1: { date: 2025-06-01, to: Garage, for: car, amount: 60, distance: 200 mi }
e2: { date: 2025-06-02, to: Landlord, for: rent-place, amount: 120 }
e3: { date: 2025-06-03, to: Insurer, for: insurance, amount: 45 }
e4: { date: 2025-06-04, to: Kiln shop, for: kiln-parts, amount: 30 }
e5: { date: 2026-04-01, to: Accountant, for: professional, amount: 90, paid: 2026-05-01 }
e6: { date: 2025-10-01, to: Bank, for: bank, amount: 12 }
e7: { date: 2025-10-02, to: Phone, for: office, amount: 18.50 }
e8: { date: 2025-10-03, to: Paper, for: advertising, amount: 20 }
`,
};

/** Lines of Schedule C and of Schedule SE of the third studio that are neither zero nor words. */
export const COMMISSIONS_FILLED = [
  ...['1 12420.00', '3 12420.00', '5 12420.00', '7 12420.00'],
  ...['9 863.80', '10 12.60', '11 700.00', '21 2500.00', '22 2800.00', '23 50.00'],
  ...['24a 322.00', '24b 40.68', '28 7289.08', '29 5130.92', '30 600.00', '31 4530.92'],
  ...['2 4530.92', '3 4530.92', '4a 4184.30', '4c 4184.30', '6 4184.30', '7 176100.00'],
  ...['9 176100.00', '10 518.85', '11 121.34', '12 640.19', '13 320.10'],
];

/** Boxes of SA103S of the fifth studio that are neither zero nor words. */
export const BRITISH_FILLED = [
  ...['9 925.00', '10 150.00', '11 64.00', '12 60.00', '14 165.00', '15 30.00', '16 90.00'],
  ...['17 12.00', '18 18.50', '19 20.00', '20 459.50', '21 615.50'],
  ...['27 75.00', '28 690.50', '31 690.50'],
];
