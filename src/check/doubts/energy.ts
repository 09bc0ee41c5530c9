/** Energy of firings and power of kilns that don't go together, or are far from the book's own. */
import type { Firing, NamedBook } from '../../book.ts';
import { dimensionOf, inBase } from '../../number/unit.ts';
import { energyOf, type EnergyUse } from '../../reckon/kilns/energy.ts';
import { usual, type Rule } from '../rule.ts';
import { isAbove } from './amounts.ts';
import { BY_TIMES, byShare } from './measures.ts';

/** The rated power is that at the rated voltage, and hours are rounded: half as much again is no doubt. */
const BY_POWER = byShare({ least: 0.03, most: 1.5 });

const energySlip: Rule = {
  name: 'energy-slip',
  severity: 'warning',
  isDoubt: true,
  about:
    'The energy of a firing is far from that of others of its kind in the kiln, or more than its power and hours can give.',
  looks: [
    usual(
      'firings',
      { measure: BY_TIMES, what: 'energy of', joint: 'in' },
      (firing, { book, note }) => {
        const use = measuredEnergy(firing, book);
        if (!use || !isAbove(use.value)) return;
        const { kiln, kind, date: day } = firing;
        const size = inBase(use.value, use.unit).toNumber();
        const dimension = dimensionOf(use.unit);
        const by = dimension === 'energy' ? '' : ` by ${dimension}`;
        const like = `${kiln}, ${kind}${by}`;
        note({ like, size, day, path: energyPath(firing), text: () => energyText(use) });
      },
    ),
    usual(
      'firings',
      {
        measure: BY_POWER,
        what: 'drawing',
        joint: 'in',
        than: 'what its power and hours can give',
      },
      (firing, { book, note }) => {
        const use = measuredEnergy(firing, book);
        const power = book.kilns.get(firing.kiln)?.power;
        const drawn = use && meanPower(firing, use);
        if (!use || drawn === undefined || !isAbove(power)) return;
        const { kiln: like, date: day, hours } = firing;
        const text = (): string => `${energyText(use)} in ${hours?.toFixed() ?? ''} hours`;
        note({ like, size: drawn / power.toNumber(), day, path: energyPath(firing), text });
      },
    ),
  ],
};

function measuredEnergy(firing: Firing, book: NamedBook): EnergyUse | undefined {
  const use = energyOf(firing, book.kilns.get(firing.kiln));
  return use?.estimated === false ? use : undefined;
}

function energyText({ value, unit }: EnergyUse): string {
  return `${value.toFixed()} ${unit}`;
}

function energyPath({ energy, meter }: Firing): readonly string[] {
  if (energy) return ['energy'];
  return meter ? ['meter', 'after'] : ['fuel-used'];
}

const JOULES_A_KWH = 3_600_000;

/** In kW; undefined where it isn't known, or the energy is that of a fuel measured otherwise. */
function meanPower({ hours }: Firing, { value, unit }: EnergyUse): number | undefined {
  if (!isAbove(hours) || !isAbove(value) || dimensionOf(unit) !== 'energy') return undefined;
  return inBase(value, unit).toNumber() / JOULES_A_KWH / hours.toNumber();
}

/** What a kiln draws on average is about half of its rated power: common practice. */
const USUAL_DUTY = 0.5;

const POWER = { measure: BY_TIMES, what: 'a power of' };

const powerSlip: Rule = {
  name: 'power-slip',
  severity: 'warning',
  isDoubt: true,
  about: "A kiln's rated power is far from what its firings draw in their hours.",
  looks: [
    usual('kilns', POWER, ({ id: like, power }, { note }) => {
      if (!isAbove(power)) return;
      const text = (): string => `${power.toFixed()} kW`;
      note({ like, size: power.toNumber() * USUAL_DUTY, day: '', path: ['power'], text });
    }),
    usual('firings', POWER, (firing, { book, note }) => {
      const use = measuredEnergy(firing, book);
      const size = use && meanPower(firing, use);
      if (size === undefined) return;
      const { kiln: like, date: day } = firing;
      const text = (): string => `${size.toFixed(1)} kW drawn`;
      note({ like, size, day, path: ['hours'], text, isShown: true });
    }),
  ],
};

/** The rules on energy and power. */
export const ENERGY_DOUBTS: readonly Rule[] = [energySlip, powerSlip];
