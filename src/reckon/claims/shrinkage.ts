/** Shrinkage and absorption of clays by cone, and how large to throw what is to come out at a size. */
import type { Book, Day, Product, Test } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { grouped } from '../../grouping.ts';
import { ONE, decimal, divide, sum, type Decimal } from '../../number/decimal.ts';
import { inBase } from '../../number/unit.ts';
import { clayTested } from './leach-tests.ts';

/** Means of the bars and pieces of one clay that were fired to one cone; fractions of 1. */
export interface ClayMeasured {
  readonly clay: string;
  /** Undefined where the tests don't say it. */
  readonly cone: string | undefined;
  /** Bars that were fired. */
  readonly bars: number;
  /** (wet − dry) ÷ wet, and so on. */
  readonly dry: Decimal | undefined;
  readonly bisqued: Decimal | undefined;
  readonly fired: Decimal | undefined;
  /** (soaked − dry) ÷ dry, by weight; ASTM C373 asks for five pieces. */
  readonly absorption: Decimal | undefined;
  readonly pieces: number;
  readonly tests: readonly string[];
}

/** Every clay that was measured up to a day, by the cone it was fired to. */
export function claysMeasured(book: Book, day: Day): readonly ClayMeasured[] {
  const tests = [...book.tests.values()].filter(
    ({ date, shrinkage, absorption }) => date <= day && (shrinkage ?? absorption) !== undefined,
  );
  const groups = grouped(
    tests,
    (test) => `${clayTested(book, test) ?? ''}\n${coneOf(book, test) ?? ''}`,
  );
  return [...groups.keys()].sort().map((key) => {
    const [clay = '', cone = ''] = key.split('\n');
    return { clay, cone: cone === '' ? undefined : cone, ...meansOf(groups.get(key) ?? []) };
  });
}

function coneOf(book: Book, { cone, firing }: Test): string | undefined {
  return cone ?? book.firings.get(firing ?? '')?.cone;
}

function meansOf(tests: readonly Test[]): Omit<ClayMeasured, 'clay' | 'cone'> {
  const bars = tests.flatMap(({ shrinkage }) => shrinkage ?? []);
  const shrunk = (stage: 'dry' | 'bisqued' | 'fired'): readonly Decimal[] =>
    bars.flatMap((bar) => (bar[stage] === undefined ? [] : [shrinkageOf(bar.wet, bar[stage])]));
  const soaked = tests.flatMap(({ absorption }) => (absorption ? [absorptionOf(absorption)] : []));
  return {
    bars: shrunk('fired').length,
    dry: meanOf(shrunk('dry')),
    bisqued: meanOf(shrunk('bisqued')),
    fired: meanOf(shrunk('fired')),
    absorption: meanOf(soaked),
    pieces: soaked.length,
    tests: tests.map(({ id }) => id),
  };
}

/** (wet − later) ÷ wet. */
export function shrinkageOf(wet: Decimal, later: Decimal): Decimal {
  return divide(wet.minus(later), wet);
}

function absorptionOf({ dry, soaked }: NonNullable<Test['absorption']>): Decimal {
  const weight = inBase(dry.value, dry.unit);
  return divide(inBase(soaked.value, soaked.unit).minus(weight), weight);
}

function meanOf(values: readonly Decimal[]): Decimal | undefined {
  return values.length === 0 ? undefined : divide(sum(values), decimal(values.length));
}

/** A product's measures wet and fired, in mm. */
export interface ThrowingSize {
  readonly product: Product;
  readonly clay: string;
  readonly cone: string | undefined;
  readonly shrinkage: Decimal;
  readonly wet: WetOrFired;
  readonly fired: WetOrFired;
  /** What is left of the volume: it falls by the cube. */
  readonly volume: Decimal;
}

/** Height and greatest width, where they are known. */
interface WetOrFired {
  readonly height: Decimal | undefined;
  readonly width: Decimal | undefined;
}

/** How large to throw each product that says its size, where the shrinkage of its clay is on record. */
export function throwingSizes(book: Book, day: Day): readonly ThrowingSize[] {
  const clays = claysMeasured(book, day);
  return [...book.products.values()].flatMap((each) => {
    const product = inForce(each, day);
    const measured = measuredFor(book, product, clays);
    const { size } = product;
    if (!size || !measured?.fired) return [];
    return [
      { product, clay: measured.clay, cone: measured.cone, ...sizesBy(size, measured.fired) },
    ];
  });
}

/** The clay of a product at the cone of its glazes; at another one where it was measured at none but one. */
function measuredFor(
  book: Book,
  { clay, glazes = [] }: Product,
  clays: readonly ClayMeasured[],
): ClayMeasured | undefined {
  const own = clays.filter((each) => each.clay === clay?.material && each.fired !== undefined);
  const cones = new Set(glazes.flatMap(({ recipe }) => book.recipes.get(recipe)?.cone ?? []));
  const [only, ...others] = own;
  if (cones.size === 0) return others.length === 0 ? only : undefined;
  return own.find(({ cone }) => cone !== undefined && [...cones].some((each) => each === cone));
}

/** Fired ÷ (1 − shrinkage), and back. */
function sizesBy(
  { of, height, width }: NonNullable<Product['size']>,
  shrinkage: Decimal,
): Pick<ThrowingSize, 'shrinkage' | 'wet' | 'fired' | 'volume'> {
  const left = ONE.minus(shrinkage);
  const given = { height, width };
  const other = (length: Decimal | undefined): Decimal | undefined =>
    length && (of === 'fired' ? divide(length, left) : length.times(left));
  const reckoned = { height: other(height), width: other(width) };
  const [wet, fired] = of === 'fired' ? [reckoned, given] : [given, reckoned];
  return { shrinkage, wet, fired, volume: left.times(left).times(left) };
}
