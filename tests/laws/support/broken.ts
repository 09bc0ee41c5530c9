/** Studios that keep few rules: records gone, counts and days changed at random; still readable. */
import { addDays, daysBetween } from '../../../src/number/date.ts';
import { randomSource, type RandomSource } from '../../helpers/random-source.js';
import { growStudio, type RandomStudio, type StudioPlan } from '../../helpers/random-studio.ts';
import { FIRST_DAY } from './days.ts';

const COUNT = /^(.*\b(?:count|in|first|second|lost|made): )\d+$/;
const DATE = /^(.*\bdate: )\d{4}-\d\d-\d\d$/;
const LOAD = /^ {2}load:\n(?: {4}.*\n)+/m;

/** A studio's files with about one in so many of its files, counts, days and loads spoiled. */
function spoil({ files, asOf }: RandomStudio, seed: number): Record<string, string> {
  const random = randomSource(seed, 'spoil');
  const rate = random.pick([0.01, 0.05, 0.2]);
  const kept = Object.entries(files).filter(
    ([path]) => path === 'studio.yaml' || !random.chance(rate / 2),
  );
  const spoiled = kept.map(([path, text]) => [path, spoilText(text, { asOf, rate, random })]);
  return Object.fromEntries(spoiled) as Record<string, string>;
}

/** The files of a plan's studio, as it grew or spoiled by a seed; one file a kind, to be quick. */
export function filesOf(plan: StudioPlan, seed: number | undefined): RandomStudio['files'] {
  const studio = growStudio(plan);
  return joined(seed === undefined ? studio.files : spoil(studio, seed));
}

function joined(files: RandomStudio['files']): Record<string, string> {
  const kinds: Record<string, string> = {};
  for (const [path, text] of Object.entries(files)) {
    const kind = path.replace(/\/.*$/, '.yaml');
    kinds[kind] = (kinds[kind] ?? '') + text;
  }
  return kinds;
}

interface Spoiling {
  readonly asOf: string;
  readonly rate: number;
  readonly random: RandomSource;
}

function spoilText(text: string, { asOf, rate, random }: Spoiling): string {
  const emptied = random.chance(rate / 2) ? text.replace(LOAD, '  load: []\n') : text;
  const day = (): string => addDays(FIRST_DAY, random.int(0, daysBetween(FIRST_DAY, asOf)));
  const lines = emptied.split('\n').map((line) => {
    if (!random.chance(rate)) return line;
    return line
      .replace(COUNT, (_, key: string) => key + String(random.int(0, 40)))
      .replace(DATE, (_, key: string) => key + day());
  });
  return lines.join('\n');
}
