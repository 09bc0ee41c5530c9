/** Pyrometric cones: names as potters write them, their order, and a guide temperature. */

/** A cone's name in its one form: `022` … `01`, `1` … `14`, half cones `03½` and `5½`. */
export type Cone = string;

const CONE = /^(0?)([1-9]\d?)(½| 1\/2)?$/;
const COLDEST = -22;
const HOTTEST = 14;

/**
 * A cone from its text, with a half cone's ` 1/2` turned into `½`. A leading zero is part of the
 * name: `04` melts far below `4`. Undefined for what lies outside 022 to 14.
 */
export function parseCone(text: string): Cone | undefined {
  const cone = text.replace(' 1/2', '½');
  return Number.isNaN(coneOrder(cone)) ? undefined : cone;
}

/**
 * Where a cone stands in the order of heat: −22 for 022 up to −1 for 01, then 1 to 14; a half cone
 * halfway on, 03½ between 04 and 03. Not a number (NaN) for a text that is no cone.
 */
export function coneOrder(cone: Cone): number {
  const [, zero, number, half] = CONE.exec(cone) ?? [];
  const heat = Number(number) + (half === undefined ? 0 : 0.5);
  const order = zero === '0' ? -heat : heat;
  return order >= COLDEST && order <= HOTTEST ? order : Number.NaN;
}

/** Colder cones first; for `sort`. Both must be cones that `parseCone` gives. */
export function compareCones(a: Cone, b: Cone): number {
  return coneOrder(a) - coneOrder(b);
}

/**
 * Older table for large cones heated at 150 °C an hour, in °C, at mauipotter.com
 * (resources_cone_chart.html); only the rows that were seen in print.
 */
const GUIDE: ReadonlyMap<Cone, number> = new Map([
  ['022', 600],
  ['010', 900],
  ['06', 999],
  ['05', 1046],
  ['04', 1060],
  ['03½', 1080],
  ['03', 1101],
  ['01', 1137],
  ['1', 1154],
  ['4', 1186],
  ['5', 1196],
  ['6', 1222],
  ['8', 1263],
  ['9', 1280],
  ['10', 1305],
  ['13', 1346],
]);

/**
 * About how hot it is when a large cone goes down at 150 °C an hour, in °C: a guide, to be shown
 * with that rate. Cones measure heat work, so other rates and tables give other temperatures for
 * the same cone: never compare or order by it. Undefined where the table (see its source) is silent.
 */
export function guideTemperature(cone: Cone): number | undefined {
  return GUIDE.get(cone);
}
