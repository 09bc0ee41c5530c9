/** What is usual in a book, and the figures that are far from it. */
import { dayNumber } from '../../number/date.ts';
import type { Finding } from '../../problem.ts';
import { listed, spot } from '../finding.ts';
import type { Rule, UsualLook } from '../rule.ts';
import type { Far, Figure, FigureOf, UsualRange } from './figure.ts';
import { usualLooksOf, type Figures, type UsualOf } from './gather.ts';
import { ENOUGH } from './measures.ts';

/** The figures of one file or kind, and the same with their words, made when something is to be said. */
export interface FigureBatch {
  readonly figures: Figures;
  readonly withWords: () => readonly FigureOf[];
}

/** Figures that are alike, each with its batch and its place in it. */
interface Group {
  /** What they are all of, in words. */
  readonly like: string;
  readonly sizes: number[];
  readonly days: number[];
  readonly batches: FigureBatch[];
  readonly places: number[];
}

/** What is said of figures far from all that are alike with them, in the order of the rules. */
export function doubtsIn(
  batches: readonly FigureBatch[],
  rules: readonly Rule[],
): readonly Finding[] {
  const groups = groupsOf(batches);
  const looks = new Map(usualLooksOf(rules).map((each) => [each.name, each]));
  const found: Finding[] = [];
  for (const [key, group] of groups) {
    const by = looks.get(keyParts(key).name);
    const far = by?.look.measure.far(group) ?? [];
    if (by) found.push(...far.flatMap((each) => doubtOf(by, group, each)));
  }
  return onceAPlace(found);
}

function groupsOf(batches: readonly FigureBatch[]): ReadonlyMap<string, Group> {
  const groups = new Map<string, Group>();
  const groupKeys = groupKeysOf(batches);
  for (const batch of batches) {
    const { keys, sizes, days } = batch.figures;
    keys.forEach((each, at) => {
      const key = groupKeys.get(each) ?? each;
      let group = groups.get(key);
      if (!group) groups.set(key, (group = newGroup(key)));
      group.sizes.push(sizes[at] ?? 0);
      group.days.push(days[at] ?? 0);
      group.batches.push(batch);
      group.places.push(at);
    });
  }
  return groups;
}

function newGroup(key: string): Group {
  const { sort, like } = keyParts(key);
  const words = sort === '' ? like : `${like}, ${sort}`;
  return { like: words, sizes: [], days: [], batches: [], places: [] };
}

/** Key of a figure → of its group: its narrower sort, or all that it is alike with where that has too few. */
function groupKeysOf(batches: readonly FigureBatch[]): ReadonlyMap<string, string> {
  const counts = new Map<string, number>();
  for (const { figures } of batches)
    for (const key of figures.keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  const all = [...counts].map(([key, count]) => {
    const { name, like } = keyParts(key);
    return [key, count < ENOUGH ? `${name}\n\n${like}` : key] as const;
  });
  return new Map(all);
}

/** A key has the look's name, which is two lines, then the narrower sort or none, then what it is alike with. */
function keyParts(key: string): Record<'name' | 'sort' | 'like', string> {
  const [rule = '', what = '', sort = '', ...like] = key.split('\n');
  return { name: `${rule}\n${what}`, sort, like: like.join('\n') };
}

function doubtOf({ rule, look }: UsualOf, group: Group, { at, usual }: Far): readonly Finding[] {
  const figure = figureAt(group, at);
  if (!figure || figure.isShown) return [];
  const { name, severity } = rule;
  const others = look.than === undefined ? nearestUsual(group, at, usual) : [];
  const text = figure.text();
  return [
    {
      rule: name,
      severity,
      at: spot(figure.record, ...figure.path),
      message: `${sentence(look, figure, usual)}${listedUsual(others)}`,
      hint: hintFor(look, figure, usual),
      figure: text,
      related: others.map((other) => ({
        at: spot(other.record, ...other.path),
        message: other.text(),
      })),
    },
  ];
}

function sentence(look: UsualLook, figure: FigureOf, usual: UsualRange): string {
  const { what, joint = 'for', measure, than } = look;
  const of = figure.like === figure.record.file ? [] : [joint, figure.like];
  const named = [what, figure.text(), ...of].filter((part) => part !== '').join(' ');
  return `${named} is ${measure.words(figure.size, usual)} ${than ?? 'the usual'}`;
}

/** A point that slipped is put back; anything else only the potter knows. */
function hintFor({ measure }: UsualLook, figure: Figure, usual: UsualRange): string {
  const [first] = figure.path;
  const moved = SLIPS.find((by) => isUsual(figure.size * 10 ** by, usual));
  if (!measure.isByTimes || moved === undefined || first === 'meter') return 'correct it';
  const [written = ''] = figure.text().split(WORDS_AFTER);
  return `write ${withPointMoved(written, moved)}`;
}

const SLIPS = [-1, 1, -2, 2, -3, 3];

/** So many decimals are those of money, and stay. */
const CENTS = 2;
const WORDS_AFTER = / (?:for|of|in|per|hours|minutes|kW)\b/;

function isUsual(size: number, { low, high }: UsualRange): boolean {
  return size >= low / 2 && size <= high * 2;
}

function withPointMoved(text: string, by: number): string {
  const [number = '', ...unit] = text.split(' ');
  const places = (number.split('.')[1] ?? '').length;
  const moved = (Number(number) * 10 ** by).toFixed(Math.max(places - by, 0));
  const [whole = '', part = ''] = moved.split('.');
  const decimals = part.replace(/0+$/, '').padEnd(places < CENTS ? 0 : places, '0');
  return [decimals === '' ? whole : `${whole}.${decimals}`, ...unit].join(' ');
}

function listedUsual(others: readonly FigureOf[]): string {
  const each = others.map((other) => `${other.text()} ${whenOf(other)}`);
  return each.length === 0 ? '' : `: ${listed(each)}`;
}

function figureAt({ like, batches, places }: Group, at: number): FigureOf | undefined {
  const figure = batches[at]?.withWords()[places[at] ?? -1];
  return figure && { ...figure, like };
}

function whenOf({ day, record }: FigureOf): string {
  return day === '' ? `in ${record.file}` : `on ${day}`;
}

const NEAREST = 2;

/** The usual ones that are nearest to it in time, in the order of their days. */
function nearestUsual(group: Group, at: number, { low, high }: UsualRange): readonly FigureOf[] {
  const day = group.days[at] ?? 0;
  const away = (other: number): number => Math.abs((group.days[other] ?? 0) - day);
  const usual = [...group.sizes.keys()].filter((other) => {
    const size = group.sizes[other] ?? 0;
    return other !== at && size >= low && size <= high;
  });
  const nearest = usual.sort((one, other) => away(one) - away(other)).slice(0, NEAREST);
  const figures = nearest.flatMap((other) => figureAt(group, other) ?? []);
  return figures.sort((one, other) => dayOf(one) - dayOf(other));
}

function dayOf({ day }: FigureOf): number {
  return day === '' ? 0 : dayNumber(day);
}

/** Of what several looks of a rule say of one place the first. */
function onceAPlace(found: readonly Finding[]): readonly Finding[] {
  const known = new Set<string>();
  return found.filter(({ rule, at }) => {
    const place = JSON.stringify([rule, at]);
    const isNew = !known.has(place);
    known.add(place);
    return isNew;
  });
}
