/** The files of the grown studio's settings and definitions. */
import { CLASSES, GALLERIES, MATERIALS, PACKING, PRODUCTS, RECIPES } from './grow-definitions.js';
import { money, quantity } from './grow-state.js';
import { yamlText } from '../helpers/yaml-text.js';

/** @import { GrownFile } from './grow.js' */

/** Before the first day of the oldest studio. */
const SINCE = '1925-12-01';

const SETTINGS = {
  format: 1,
  name: 'A studio grown for measuring',
  currency: 'USD',
  'weight-unit': 'kg',
  'temperature-unit': '°C',
  basis: 'cash',
  'stock-value': 'average',
  'labour-rate': '24.00',
  'lead-days': 10,
};

const materials = () =>
  Object.fromEntries(
    MATERIALS.map(({ id, name, kind, unit, order }) => [
      id,
      {
        name,
        kind,
        unit,
        'reorder-at': quantity(Math.round(order * 0.4), unit),
        'lead-days': kind === 'clay' ? 14 : undefined,
        contains: id === 'quartz' ? ['silica'] : undefined,
      },
    ]),
  );

const recipes = () =>
  Object.fromEntries(
    RECIPES.map(({ id, base, additions }) => [
      id,
      {
        name: `${id.charAt(0).toUpperCase()}${id.slice(1)} glaze`,
        kind: 'glaze',
        cone: { text: '6' },
        'for-food': 'yes',
        versions: [
          {
            from: SINCE,
            base: base.map(([material, parts]) => ({ material, parts })),
            additions:
              additions.length > 0
                ? additions.map(([material, percent]) => ({ material, percent: `${percent}%` }))
                : undefined,
          },
        ],
      },
    ]),
  );

const products = () =>
  Object.fromEntries(
    PRODUCTS.map(({ id, clay, each, glazes, space, minutes, price, once }) => [
      id,
      {
        name: id.charAt(0).toUpperCase() + id.slice(1).replaceAll('-', ' '),
        clay: { material: clay, each: quantity(each, 'g') },
        glazes: glazes.map(([recipe, weight]) => ({ recipe, each: quantity(weight, 'g') })),
        fired: once ? ['once'] : undefined,
        space,
        minutes,
        price: money(price * 100),
        wholesale: money(price * 55),
        second: money(price * 60),
        packing: PACKING.map(([packing, count]) => ({ material: packing, each: count })),
        care: once ? ['ornamental'] : ['food', 'dishwasher'],
      },
    ]),
  );

const classes = () =>
  Object.fromEntries(
    CLASSES.map((id) => [
      id,
      {
        name: id.charAt(0).toUpperCase() + id.slice(1).replaceAll('-', ' '),
        starts: SINCE,
        sessions: 6,
        hours: 2,
        fee: '145.00',
        clay: { material: 'stoneware', each: '5 kg' },
        'firing-included': 'yes',
      },
    ]),
  );

const KILNS = {
  'front-loader': {
    name: 'Front loader',
    fuel: 'electricity',
    power: '11.52 kW',
    space: 280,
    duty: { bisque: '50%', glaze: '65%', once: '65%' },
    wear: [
      { part: 'elements', cost: '480.00', firings: 180 },
      { part: 'shelves', cost: '360.00', firings: 400 },
    ],
  },
  'test-kiln': { name: 'Test kiln', fuel: 'electricity', power: '2.4 kW', space: 8 },
};

const TARIFFS = {
  'town-power': {
    from: SINCE,
    fuel: 'electricity',
    price: '0.2140',
    per: 'kWh',
    bands: [
      { hours: '16:00-21:00', days: ['mon', 'tue', 'wed', 'thu', 'fri'], price: '0.3870' },
      { hours: '23:00-06:00', price: '0.1490' },
    ],
  },
};

const CHANNELS = {
  'studio-door': { name: 'Studio door', kind: 'direct' },
  'open-doors': { name: 'Open doors', kind: 'direct' },
  market: { name: 'Saturday market', kind: 'fair' },
  'web-shop': { name: 'Web shop', kind: 'online', 'fee-percent': '2.9%', 'fee-each': '0.30' },
  trade: { name: 'Trade', kind: 'wholesale' },
  ...Object.fromEntries(
    GALLERIES.map((id) => [
      id,
      { name: id.replaceAll('-', ' '), kind: 'consignment', commission: '40%' },
    ]),
  ),
};

/**
 * The settings and one file for each kind of definition.
 * @returns {GrownFile[]}
 */
export function definitionFiles() {
  const kinds = {
    materials: materials(),
    recipes: recipes(),
    products: products(),
    classes: classes(),
    kilns: KILNS,
    tariffs: TARIFFS,
    channels: CHANNELS,
  };
  const files = Object.entries(kinds).map(([kind, records]) => ({
    path: `${kind}.yaml`,
    text: yamlText(records),
    records: Object.keys(records).length,
  }));
  return [{ path: 'studio.yaml', text: yamlText(SETTINGS), records: 0 }, ...files];
}
