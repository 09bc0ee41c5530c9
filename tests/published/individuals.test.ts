/** The chart of single values, against a worked example printed elsewhere, through the command too. */
import { describe, expect, it } from 'vitest';
import { decimal } from '../../src/number/decimal.ts';
import { individuals } from '../../src/number/individuals.ts';
import { addDays } from '../../src/number/date.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

/**
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2, the flow rates of ten batches: from memory,
 * the mean, the mean moving range and the limits computed anew from the formula there.
 */
const FLOW_RATES = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

describe('individuals chart', () => {
  it('has the mean and the limits of the handbook', () => {
    const chart = individuals(FLOW_RATES.map((rate) => decimal(String(rate))));
    expect(chart?.centre.toFixed(2)).toBe('50.81');
    expect(chart?.limits.upper.toFixed(4)).toBe('55.8041');
    expect(chart?.limits.lower.toFixed(4)).toBe('45.8159');
    expect(chart?.found).toEqual(FLOW_RATES.map(() => undefined));
  });

  it('says nothing of nine', () => {
    expect(individuals(FLOW_RATES.slice(1).map((rate) => decimal(String(rate))))).toBeUndefined();
  });

  it('has a run from the eighth on one side on, until one is on the mean', () => {
    const sides = [1, -1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0, -3, -3, -3].map((side) => decimal(side));
    const { centre, found } = individuals(sides)!;
    expect(centre.toNumber()).toBe(0);
    expect(found.map((each, at) => (each === 'run-above' ? at : undefined)).filter(Number)).toEqual(
      [9, 10],
    );
  });

  it('is the same through the command', async () => {
    const firings = FLOW_RATES.map(
      (energy, at) =>
        `f${at}: { date: ${addDays('2026-01-01', at)}, kiln: top, kind: glaze, energy: ${energy} kWh, load: [] }`,
    );
    const folder = tempStudio({
      'studio.yaml': 'format: 1\nname: Lane End Pottery\ncurrency: USD\n',
      'kilns.yaml': 'top: { name: Top, fuel: electricity }\n',
      'firings.yaml': `${firings.join('\n')}\n`,
    });
    const { out } = await runCommand('kilns', { asOf: '2026-02-01' }, { argument: 'top', folder });
    expect(out).toContain('glaze, energy: mean 50.8 kWh, limits 45.8 to 55.8, 10 firings.');
    expect(out).not.toContain('limit;');
  });
});
