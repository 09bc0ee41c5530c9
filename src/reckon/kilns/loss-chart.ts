/** Which firings are out of line: the loss share of each beside the limits for firings of its kind. */
import type { Firing } from '../../book.ts';
import { decimal, divide, type Decimal } from '../../number/decimal.ts';
import { madeOnce } from '../../once.ts';
import { laney, pChart, type Limits } from '../../number/statistics.ts';
import { isFirstFiring, type LossFact } from './losses.ts';
import { byDate } from '../../text-order.ts';

/** One firing on the chart; every share is a fraction of 1. */
export interface ChartedFiring {
  readonly firing: Firing;
  readonly in: number;
  readonly lost: number;
  readonly lossRate: Decimal;
  readonly centre: Decimal;
  /** 3-sigma limits of a p-chart for a load of that size. */
  readonly limits: Limits;
  /** Beyond those limits. */
  readonly outOfLine: boolean;
  /** Laney's p′ limits, which allow for loads that vary more than chance; undefined with too few firings. */
  readonly laney: Limits | undefined;
  readonly outOfLaney: boolean;
}

/**
 * The firings with outcomes, charted apart by kind; in order of kind, date and id. Firings that lost
 * more than went in are left out.
 */
export function chartFirings(facts: readonly LossFact[]): ChartedFiring[] {
  const kinds = [...new Set(facts.map((fact) => fact.stage).filter(isFirstFiring))].sort();
  return kinds.flatMap((kind) => chartKind(loadsOf(facts.filter((fact) => fact.stage === kind))));
}

interface FiredLoad {
  readonly firing: Firing;
  in: number;
  lost: number;
}

function loadsOf(facts: readonly LossFact[]): FiredLoad[] {
  const loads = new Map<string, FiredLoad>();
  for (const { firing, in: all, lost } of facts) {
    if (!firing) continue;
    const load = loads.get(firing.id) ?? { firing, in: 0, lost: 0 };
    loads.set(firing.id, load);
    load.in += all;
    load.lost += lost;
  }
  // A load that lost more than went in is no sample, and must not hide the others.
  const filled = [...loads.values()].filter((load) => load.in > 0 && load.lost <= load.in);
  return filled.sort((a, b) => byDate(a.firing, b.firing));
}

function chartKind(loads: readonly FiredLoad[]): ChartedFiring[] {
  const samples = loads.map((load) => ({ hits: load.lost, of: load.in }));
  const chart = pChart(samples);
  const wide = madeOnce(() => laney(samples));
  const outside = new Set(chart?.outside);
  if (!chart) return [];
  return loads.flatMap((load, index) => {
    const limits = chart.limits[index];
    if (!limits) return [];
    return [
      {
        firing: load.firing,
        in: load.in,
        lost: load.lost,
        lossRate: divide(decimal(load.lost), decimal(load.in)),
        centre: chart.centre,
        limits,
        outOfLine: outside.has(index),
        get laney() {
          return wide()?.limits[index];
        },
        get outOfLaney() {
          return wide()?.outside.includes(index) ?? false;
        },
      },
    ];
  });
}
