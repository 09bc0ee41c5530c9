/** Firings that are far hotter or colder than their like. */
import type { Firing, NamedBook } from '../../book.ts';
import { coneOrder, type Cone } from '../../number/cone.ts';
import { glazesOf } from '../across.ts';
import { usual, type Rule } from '../rule.ts';
import type { GatherScene, Yardstick } from './figure.ts';
import { bySteps } from './measures.ts';

/** Cones and degrees C beyond those between which nearly all firings of a kind are. */
const CONES = 3;
const DEGREES = 100;

const HOTTER_THAN_OTHERS = bySteps({ above: CONES, below: Infinity, unit: 'cones' });

/** Where no other firing tells whether a studio fires its bisque hotter than its glaze. */
const HOTTER_THAN_GLAZE: Yardstick = {
  ...bySteps({ above: CONES, below: Infinity, unit: 'cones', mostAtFirst: CONES }),
  words: (size) => `${size} cones`,
};

const bisqueSlip: Rule = {
  name: 'bisque-slip',
  severity: 'warning',
  isDoubt: true,
  about: 'A bisque firing is far hotter than the others were, or than the glaze of what is in it.',
  looks: [
    usual('firings', { measure: HOTTER_THAN_OTHERS, what: '' }, (firing, { note }) => {
      if (firing.kind === 'bisque') noteCone(firing, { like: 'bisque', less: 0 }, note);
    }),
    usual(
      'firings',
      { measure: HOTTER_THAN_GLAZE, what: 'firing at', than: 'hotter than its glaze' },
      (firing, { book, note }) => {
        if (firing.kind !== 'bisque') return;
        const less = hottestGlaze(firing, book);
        if (less !== undefined) noteCone(firing, { like: 'bisque', less }, note);
      },
    ),
  ],
};

interface Likened {
  readonly like: string;
  /** The cone that it is measured from, as its place in the order of heat. */
  readonly less: number;
}

function noteCone(
  { cone, date: day }: Firing,
  { like, less }: Likened,
  note: GatherScene['note'],
): void {
  if (cone === undefined) return;
  const text = (): string => coneText(cone);
  note({ like, size: heatOf(cone) - less, day, path: ['cone'], text });
}

/** Cones counted on from one another: 1 comes after 01. */
function heatOf(cone: Cone): number {
  const order = coneOrder(cone);
  return order > 0 ? order - 1 : order;
}

function coneText(cone: Cone): string {
  return `cone ${cone}`;
}

/** The hottest cone of the glazes that go on what is in a firing. */
function hottestGlaze({ load }: Firing, book: NamedBook): number | undefined {
  const lots = load.flatMap(({ lot }) => (lot === undefined ? [] : (book.pieces.get(lot) ?? [])));
  const glazes = lots.flatMap((lot) => glazesOf(book, lot));
  const cones = glazes.flatMap(({ recipe }) => book.recipes.get(recipe)?.cone ?? []);
  return cones.length === 0 ? undefined : Math.max(...cones.map(heatOf));
}

const BOTH_WAYS = bySteps({ above: CONES, below: CONES, unit: 'cones' });
const IN_DEGREES = bySteps({ above: DEGREES, below: DEGREES, unit: '°C' });

const heatSlip: Rule = {
  name: 'heat-slip',
  severity: 'warning',
  isDoubt: true,
  about: 'The cone or the peak of a firing is far from that of others of its kind.',
  looks: [
    usual('firings', { measure: BOTH_WAYS, what: '' }, (firing, { note }) => {
      const { kind } = firing;
      // A bisque that is too hot has a rule of its own; tests are fired to whatever is tried.
      if (kind !== 'bisque' && kind !== 'test') noteCone(firing, { like: kind, less: 0 }, note);
    }),
    usual('firings', { measure: IN_DEGREES, what: 'a peak of' }, (firing, { note }) => {
      const { kind, peak, date: day } = firing;
      if (peak === undefined || kind === 'test') return;
      note({ like: kind, size: degreesIn(peak), day, path: ['peak'], text: () => peak });
    }),
  ],
};

const TEMPERATURE = /^([\d.]+) °?([CF])$/;

/** In °C; not a number (NaN) for a text of another form. */
function degreesIn(peak: string): number {
  const [, number, scale] = TEMPERATURE.exec(peak) ?? [];
  return scale === 'F' ? ((Number(number) - 32) * 5) / 9 : Number(number);
}

/** The rules on heat. */
export const HEAT_DOUBTS: readonly Rule[] = [bisqueSlip, heatSlip];
