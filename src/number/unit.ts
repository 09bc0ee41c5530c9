/** Units with exact factors, quantities as people write them, and conversion between units. */
import { decimal, ONE, portion, type Decimal, type Quotient } from './decimal.ts';

/** What a unit measures. Gas is apart from energy: only a heat content ties the two. */
export type Dimension = 'weight' | 'volume' | 'energy' | 'gas' | 'count';

interface UnitRow {
  readonly dimension: Dimension;
  /** Exact size in the dimension's base: g, mL, J, cubic metres of gas, pieces. */
  readonly factor: string;
  readonly source: string;
}

const SI = 'SI';
const SP811 = 'NIST SP 811, appendix B (exact)';
const HB44 = 'NIST Handbook 44, appendix C (exact)';

/** Every unit that a book may use; there are no synonyms. */
export const UNITS = {
  g: { dimension: 'weight', factor: '1', source: SI },
  kg: { dimension: 'weight', factor: '1000', source: SI },
  t: { dimension: 'weight', factor: '1000000', source: SI },
  oz: { dimension: 'weight', factor: '28.349523125', source: SP811 },
  lb: { dimension: 'weight', factor: '453.59237', source: SP811 },
  ton: { dimension: 'weight', factor: '907184.74', source: HB44 },
  mL: { dimension: 'volume', factor: '1', source: SI },
  L: { dimension: 'volume', factor: '1000', source: SI },
  floz: { dimension: 'volume', factor: '29.5735295625', source: HB44 },
  pint: { dimension: 'volume', factor: '473.176473', source: HB44 },
  qt: { dimension: 'volume', factor: '946.352946', source: HB44 },
  gal: { dimension: 'volume', factor: '3785.411784', source: HB44 },
  'imp-pint': {
    dimension: 'volume',
    factor: '568.26125',
    source: 'NIST SP 811, imperial gallon ÷ 8 (exact)',
  },
  'imp-gal': { dimension: 'volume', factor: '4546.09', source: SP811 },
  ft3: { dimension: 'volume', factor: '28316.846592', source: HB44 },
  in3: { dimension: 'volume', factor: '16.387064', source: HB44 },
  kWh: { dimension: 'energy', factor: '3600000', source: SP811 },
  MJ: { dimension: 'energy', factor: '1000000', source: SI },
  Btu: {
    dimension: 'energy',
    factor: '1055.05585262',
    source: 'NIST SP 811, International Table Btu (exact)',
  },
  therm: {
    dimension: 'energy',
    factor: '105505585.262',
    source: '100,000 International Table Btu',
  },
  'm3-gas': { dimension: 'gas', factor: '1', source: SI },
  ccf: { dimension: 'gas', factor: '2.8316846592', source: '100 ft3, NIST Handbook 44 (exact)' },
  each: { dimension: 'count', factor: '1', source: 'a count' },
} as const satisfies Record<string, UnitRow>;

/** The name of a unit as a book writes it. */
export type Unit = keyof typeof UNITS;

/** So much of a unit, with the words that stand in the file. */
export interface Quantity {
  readonly value: Decimal;
  readonly unit: Unit;
  readonly text: string;
}

/** `10.8 kWh/m3-gas`: so much energy in one unit of gas. */
export interface HeatContent {
  readonly value: Decimal;
  readonly energy: Unit;
  readonly per: Unit;
}

/** Whether a text is the name of a unit, as written in `UNITS`; capitals count. */
export function isUnit(text: string): text is Unit {
  return Object.hasOwn(UNITS, text);
}

/** What a unit measures. */
export function dimensionOf(unit: Unit): Dimension {
  return UNITS[unit].dimension;
}

const QUANTITIES_KEPT = 16_384;
const quantities = new Map<string, Quantity>();

/** As many digits as the schema allows; a longer number is no weight of anything. */
const UNSIGNED = String.raw`(\d{1,12}(?:\.\d{1,20})?)`;
const QUANTITY = new RegExp(`^(?:${UNSIGNED} x )?${UNSIGNED}(?: (\\S+))?$`);

/**
 * A quantity as people write it: `12.5 kg`, `4 x 25 lb` (100 lb), `24` (a count, in `each`); at most
 * 12 digits before the point and 20 after it.
 * Undefined for anything else, a negative number or an unknown unit among them.
 */
export function parseQuantity(text: string): Quantity | undefined {
  return quantities.get(text) ?? remember(readQuantity(text));
}

function readQuantity(text: string): Quantity | undefined {
  const [, times, number, unit = 'each'] = QUANTITY.exec(text) ?? [];
  if (number === undefined || !isUnit(unit)) return undefined;
  const single = decimal(number);
  return { value: times === undefined ? single : single.times(decimal(times)), unit, text };
}

function remember(made: Quantity | undefined): Quantity | undefined {
  if (quantities.size >= QUANTITIES_KEPT) quantities.clear();
  if (made) quantities.set(made.text, made);
  return made;
}

/**
 * The same amount in another unit of its dimension, rounded half up to 24 decimals; the same unit
 * gives the value itself. Undefined when the two measure different things: gas is no energy, for a
 * meter does not tell how much heat is in it.
 */
export function convert(value: Decimal, from: Unit, to: Unit): Decimal | undefined {
  if (from === to) return value;
  if (dimensionOf(from) !== dimensionOf(to)) return undefined;
  return portion(value, factorOf(from), factorOf(to));
}

const factors = new Map<Unit, Decimal>();

function factorOf(unit: Unit): Decimal {
  const factor = factors.get(unit) ?? decimal(UNITS[unit].factor);
  factors.set(unit, factor);
  return factor;
}

/** The amount in the base of its dimension (g, mL, J, m³ of gas, pieces), exact. */
export function inBase(value: Decimal, unit: Unit): Decimal {
  return UNITS[unit].factor === '1' ? value : value.times(factorOf(unit));
}

/**
 * The same amount in another unit of its dimension as a ratio, exact where `convert` has to round.
 * Undefined when the two measure different things.
 */
export function ratioIn(value: Decimal, from: Unit, to: Unit): Quotient | undefined {
  if (from === to) return { top: value, bottom: ONE };
  if (dimensionOf(from) !== dimensionOf(to)) return undefined;
  return { top: inBase(value, from), bottom: factorOf(to) };
}

const HEAT_CONTENT = new RegExp(`^${UNSIGNED} (\\w+)/([\\w-]+)$`);

/**
 * The energy in a unit of gas, as the bill states it: `10.8 kWh/m3-gas`, `1035 Btu/ft3`. Energy in
 * kWh, MJ, Btu or therm; gas in m3-gas, ccf or ft3, where ft3 is turned into ccf (100 ft3).
 * Undefined for anything else, and for no heat at all.
 */
export function parseHeatContent(text: string): HeatContent | undefined {
  const [, number, energy = '', gas = ''] = HEAT_CONTENT.exec(text) ?? [];
  const per = gas === 'ft3' ? 'ccf' : gas;
  if (number === undefined || !isUnit(energy) || !isUnit(per)) return undefined;
  if (dimensionOf(energy) !== 'energy' || dimensionOf(per) !== 'gas') return undefined;
  const value = gas === 'ft3' ? decimal(number).times(decimal(100)) : decimal(number);
  return value.isZero() ? undefined : { value, energy, per };
}

const POWER = new RegExp(`^${UNSIGNED}(?: kW)?$`);

/** A kiln's rated power in kW: `11.52 kW`, or the bare number. Undefined for anything else. */
export function parsePower(text: string): Decimal | undefined {
  const number = POWER.exec(text)?.[1];
  return number === undefined ? undefined : decimal(number);
}

const LENGTH = new RegExp(`^${UNSIGNED}(?: (mm|cm|in))?$`);
const MILLIMETRES = { mm: '1', cm: '10', in: '25.4' } as const;

/** A length in mm: `150 mm`, `15 cm`, `6 in` (25.4 mm each, exact), or the bare number. Undefined for anything else. */
export function parseLength(text: string): Decimal | undefined {
  const [, number, unit = 'mm'] = LENGTH.exec(text) ?? [];
  if (number === undefined) return undefined;
  return decimal(number).times(decimal(MILLIMETRES[unit as keyof typeof MILLIMETRES]));
}
