import { describe, expect, test } from 'vitest';
import { wordingOf } from '../../../src/check/faults/wording.ts';
import { said } from './said.ts';

/** What is said of a value, without its place. */
function words(type: string, text: string): string {
  const { message, hint } = wordingOf(type, { name: 'it', text, example: 'EXAMPLE' });
  return `${message.replace(/^it is "[^"]*", /, '')}; ${hint}`;
}

describe.each<[string, readonly (readonly [string, string])[]]>([
  [
    'amount',
    [
      ['$12.50', 'which is not an amount in plain digits; write 12.50'],
      ['12,50', 'which is not an amount in plain digits; write 12.50'],
      ['1,250.00 USD', 'which is not an amount in plain digits; write 1250.00'],
      ['1.250,00', 'which is not an amount in plain digits; write 1250.00'],
      ['1,250', 'which is not an amount in plain digits; write 1250 or 1.250, whichever you mean'],
      ["1'000'000", 'which is not an amount in plain digits; write 1000000'],
      [
        'free',
        'which is not an amount in plain digits; write digits with a point for the decimals, such as EXAMPLE',
      ],
      [
        '6.5%',
        'a percentage, but an amount of money belongs there; write what it came to in money, such as EXAMPLE',
      ],
      ['-5', "but it can't be below 0; write 5 if the minus is a slip"],
      [
        '1234567890123',
        'which has too many digits; write at most 12 before the point and 20 after it',
      ],
    ],
  ],
  [
    'positive-count',
    [
      ['0', 'but it must be more than 0; write how much it is, such as EXAMPLE'],
      ['-3', "but it can't be below 0; write 3 if the minus is a slip"],
      ['2.0', 'which is not a whole number; write 2'],
      ['24 mugs', 'which is not a whole number; write 24'],
      ['2.5', 'which is not a whole number; write 2 or 3, whichever you mean'],
      ['a dozen', 'which is not a whole number; write 12'],
      ['two dozen bowls', 'which is not a whole number; write 24'],
      ['six', 'which is not a whole number; write 6'],
    ],
  ],
  [
    'density',
    [
      ['1,45', 'which is not a density between 1 and 20; write 1.45'],
      ['145', 'which is not a density between 1 and 20; write 1.45'],
    ],
  ],
  [
    'quantity',
    [
      ['5kg', 'which is not written as a quantity; write 5 kg'],
      ['5 pounds', 'and "pounds" is not one of the units; write 5 lb'],
      [
        '12 gallons',
        'and "gallons" is not one of the units; write 12 gal or 12 imp-gal, whichever you mean',
      ],
      ['4 x 25 lbs', 'and "lbs" is not one of the units; write 4 x 25 lb'],
      ['2,5 kg', 'which is not written as a quantity; write 2.5 kg'],
      ['4x25 lb', 'which is not written as a quantity; write 4 x 25 lb'],
      [
        '3 constructor',
        'and "constructor" is not one of the units; use a unit such as g, kg, oz, lb, mL, L, pint or gal, or a bare number for a count',
      ],
      ['3 kgg', 'and "kgg" is not one of the units; write 3 kg'],
      ['a bag', 'which is not a quantity; write a number, a space and a unit, such as EXAMPLE'],
      ['-1 kg', "but it can't be below 0; write 1 kg if the minus is a slip"],
    ],
  ],
  [
    'positive-weight',
    [
      ['0 g', 'but it must be more than 0; write how much it is, such as EXAMPLE'],
      ['5 L', 'but a weight belongs there; use g, kg, t, oz, lb or ton'],
      [
        '5000',
        'without a unit; write 5000 g, or the number with kg, t, oz, lb or ton, whichever it is',
      ],
      ['5 tons', 'and "tons" is not one of the units; write 5 ton or 5 t, whichever you mean'],
    ],
  ],
  [
    'weight-or-volume',
    [
      [
        '3 kWh',
        'but a weight or a volume belongs there; use g, kg, t, oz, lb, ton, mL, L, floz, pint, qt, gal, imp-pint, imp-gal, ft3 or in3',
      ],
    ],
  ],
  ['energy', [['71.4 kwh', 'and "kwh" is not one of the units; write 71.4 kWh']]],
  [
    'percent',
    [
      ['8', 'which is not a percentage; write 8%'],
      ['2,9 %', 'which is not a percentage; write 2.9%'],
      ['8 percent', 'which is not a percentage; write 8%'],
      ['0.08', 'which is not a percentage; write 8% or 0.08%, whichever you mean'],
      ['much', 'which is not a percentage; write a number and a percent sign, such as EXAMPLE'],
    ],
  ],
  [
    'share',
    [
      ['140%', 'which is more than 100%; write a percentage from 0% to 100%, such as EXAMPLE'],
      ['40', 'which is not a percentage; write 40%'],
    ],
  ],
  [
    'discount',
    [
      ['10 %', 'which is not a percentage; write 10%'],
      ['$5', 'which is not an amount in plain digits; write 5'],
    ],
  ],
  [
    'cone',
    [
      ['cone 6', 'which is not a cone; write "6"'],
      ['^04', 'which is not a cone; write "04"'],
      ['6.5', 'which is not a cone; write "6½"'],
      [
        '15',
        'which is not a cone; write it in quotes: "022" to "01", "1" to "14", or a half cone such as "5½"',
      ],
      [
        '6.2',
        'which is not a cone; write it in quotes: "022" to "01", "1" to "14", or a half cone such as "5½"',
      ],
    ],
  ],
  [
    'date',
    [
      ['2026-3-8', 'which is not written as year-month-day; write 2026-03-08'],
      ['2026/03/08', 'which is not written as year-month-day; write 2026-03-08'],
      [
        '8/3/2026',
        'which is not written as year-month-day; write 2026-08-03 or 2026-03-08, whichever you mean',
      ],
      ['31.3.2026', 'which is not written as year-month-day; write 2026-03-31'],
      [
        '2026-02-29',
        'which is not a day of the calendar; write 2026-02-28 or 2026-03-01, whichever you mean',
      ],
      ['yesterday', 'which is not a day of the calendar; write year-month-day, such as EXAMPLE'],
      ['1026-03-08', 'which is too far off; write a day from 1900 to 2099'],
    ],
  ],
  [
    'paid',
    [
      [
        'yes',
        'which is neither a day nor no; write the day it was paid, such as EXAMPLE, or no while it is owed',
      ],
      ['2026-3-8', 'which is not written as year-month-day; write 2026-03-08'],
    ],
  ],
  [
    'time',
    [
      ['6.30', 'which is not a time of day; write 06:30'],
      ['6:30 pm', 'which is not a time of day; write 18:30'],
      ['dawn', 'which is not a time of day; write it on the 24-hour clock, such as EXAMPLE'],
    ],
  ],
  [
    'hours-of-day',
    [
      ['4pm – 9pm', 'which is not a span of hours; write 16:00-21:00'],
      ['21:00-24:00', 'which is not a span of hours; write 21:00-00:00'],
      [
        'evening',
        'which is not a span of hours; write from and to on the 24-hour clock, such as EXAMPLE',
      ],
    ],
  ],
  [
    'month-day',
    [['4-6', 'which is not a day of the year; write month-day in quotes, such as "04-06"']],
  ],
  [
    'temperature',
    [
      ['1222', 'which is not a temperature; write 1222 °C or 1222 °F, whichever you mean'],
      ['1222c', 'which is not a temperature; write 1222 °C'],
      ['white hot', 'which is not a temperature; write it as it: EXAMPLE'],
    ],
  ],
  [
    'distance',
    [
      ['84', 'which is not a distance; write 84 km or 84 mi, whichever you mean'],
      ['84 miles', 'which is not a distance; write 84 mi'],
      ['84km', 'which is not a distance; write 84 km'],
    ],
  ],
  [
    'power',
    [
      ['11 KW', 'which is not a power in kW; write 11 kW'],
      ['11520 W', 'which is not a power in kW; write 11.52 kW'],
    ],
  ],
  [
    'heat-content',
    [
      [
        '10.8',
        'which is not a heat content; write energy by unit of gas, such as 10.8 kWh/m3-gas or 1.037 therm/ccf',
      ],
    ],
  ],
  [
    'currency',
    [
      ['usd', 'which is not a currency; write USD'],
      ['$', 'which is not a currency; write its three letters, such as USD or EUR'],
    ],
  ],
  [
    'oxide',
    [['sio2', 'which is not a formula; write the oxide as its formula, such as SiO2, or LOI']],
  ],
  [
    'id',
    [
      [
        'blue mug',
        "which can't be an id; write blue-mug; an id is a letter, then letters, digits and hyphens",
      ],
      ['2nd', "which can't be an id; an id is a letter, then letters, digits and hyphens"],
    ],
  ],
  ['no-such-type', [['x', 'which does not belong here; write it as it: EXAMPLE']]],
])('%s', (type, cases) => {
  test.each(cases)('%s', (text, expected) => {
    expect(words(type, text)).toBe(expected);
  });
});

test('a typical record full of slips, read aloud', () => {
  expect(said('bought', 'lines: [ { material: silica, quantity: 2 bags, cost: "$40" } ]')).toEqual([
    'x1/lines/0/quantity schema: quantity is "2 bags", and "bags" is not one of the units; use a unit such as g, kg, oz, lb, mL, L, pint or gal, or a bare number for a count',
    'x1/lines/0/cost schema: cost is "$40", which is not an amount in plain digits; write 40',
  ]);
});
