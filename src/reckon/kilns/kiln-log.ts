/** A kiln's firings, each with its energy and hours beside those of its kind, so that a drift shows. */
import type { DaysUpTo } from '../../among.ts';
import type { Book, Firing, FiringKind, Kiln } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import type { Decimal } from '../../number/decimal.ts';
import { individuals, type IndividualsChart, type OutOfLine } from '../../number/individuals.ts';
import { convert, type Unit } from '../../number/unit.ts';
import { byDate } from '../../text-order.ts';
import { energyOf, type EnergyUse } from './energy.ts';
import { firingsOfKiln } from './kiln-parts.ts';

/** What of a firing is charted. */
const CHARTED = ['energy', 'hours'] as const;

type Charted = (typeof CHARTED)[number];

/** One figure of a firing. */
export interface FiringValue {
  readonly firing: Firing;
  readonly value: Decimal;
  readonly found: OutOfLine | undefined;
}

/** One figure of all firings of a kind in a kiln, the first firing first. */
export interface KilnChart {
  readonly kind: FiringKind;
  readonly of: Charted;
  /** That of the log; hours are `h`. */
  readonly unit: Unit | 'h';
  readonly values: readonly FiringValue[];
  /** Undefined for fewer firings than anything can be said of. */
  readonly chart: IndividualsChart | undefined;
}

/** What a kiln fired in some days. */
export interface KilnLog {
  readonly kiln: Kiln;
  /** The unit of energy: that of the newest firing of which it was measured. */
  readonly unit: Unit;
  readonly firings: readonly LoggedFiring[];
  /** By kind, energy before hours; none of what was never measured. */
  readonly charts: readonly KilnChart[];
}

/** One firing; energy that was not measured, but reckoned from power and hours, is undefined. */
export interface LoggedFiring {
  readonly firing: Firing;
  readonly energy: Decimal | undefined;
  readonly hours: Decimal | undefined;
}

/** The log of one kiln by date. */
export function kilnLog(book: Book, kiln: Kiln, days: DaysUpTo): KilnLog {
  const fired = firingsOfKiln(book, kiln, days).sort(byDate);
  const unit = fired.map((firing) => measuredEnergy(firing, kiln)?.unit).findLast(Boolean) ?? 'kWh';
  const firings = fired.map((firing) => {
    const use = measuredEnergy(firing, kiln);
    return { firing, energy: use && convert(use.value, use.unit, unit), hours: firing.hours };
  });
  const kinds = grouped(firings, ({ firing: { kind } }) => kind);
  const charts = [...kinds.keys()].sort().flatMap((kind) =>
    CHARTED.map((of): KilnChart => {
      const inUnit = of === 'hours' ? 'h' : unit;
      return { kind, of, unit: inUnit, ...charted(kinds.get(kind) ?? [], of) };
    }),
  );
  return { kiln, unit, firings, charts: charts.filter(({ values }) => values.length > 0) };
}

function measuredEnergy(firing: Firing, kiln: Kiln): EnergyUse | undefined {
  const use = energyOf(firing, kiln);
  return use?.estimated === false ? use : undefined;
}

function charted(
  firings: readonly LoggedFiring[],
  of: Charted,
): Pick<KilnChart, 'values' | 'chart'> {
  const values = firings.flatMap(({ firing, [of]: value }) => (value ? [{ firing, value }] : []));
  const chart = individuals(values.map(({ value }) => value));
  return { chart, values: values.map((each, at) => ({ ...each, found: chart?.found[at] })) };
}
