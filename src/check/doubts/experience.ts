/** What is usual in a book, and the figures that are far from it. */
import { dayNumber } from '../../number/date.ts';
import type { Finding } from '../../problem.ts';
import { listed, spot } from '../finding.ts';
import type { Rule, UsualLook } from '../rule.ts';
import { figurePlace, type FigureColumns } from './columns.ts';
import type { AlikeFigures, Far, Figure, FigureOf, UsualRange } from './figure.ts';
import { usualLooksOf, type UsualOf } from './gather.ts';
import { ENOUGH } from './measures.ts';

/** The figures of a book, file by file, and those of one file with their words, made when something is to be said. */
export interface Experience {
  readonly columns: FigureColumns;
  readonly inWords: (file: number) => readonly FigureOf[];
}

/** Figures that are alike, each with its place among all. */
interface Group extends AlikeFigures {
  readonly experience: Experience;
  /** What they are all of, in words. */
  readonly like: string;
  readonly places: readonly number[];
}

/** What is said of figures far from all that are alike with them, in the order of the rules. */
export function doubtsIn(experience: Experience, rules: readonly Rule[]): readonly Finding[] {
  const looks = new Map(usualLooksOf(rules).map((each) => [each.name, each]));
  const found: Finding[] = [];
  for (const [key, places] of placesByKey(experience.columns)) {
    const { name, sort, like } = keyParts(key);
    const by = looks.get(name);
    if (!by) continue;
    const group = groupOf(experience, { like: sort === '' ? like : `${like}, ${sort}`, places });
    found.push(...by.look.measure.far(group).flatMap((far) => doubtOf(by, group, far)));
  }
  return onceAPlace(found);
}

function groupOf(experience: Experience, alike: Pick<Group, 'like' | 'places'>): Group {
  const { sizes, days } = experience.columns;
  return {
    ...alike,
    experience,
    sizes: alike.places.map((place) => sizes[place] ?? 0),
    days: alike.places.map((place) => days[place] ?? 0),
  };
}

/** Figures that have too few of their narrower sort are held against all that they are alike with. */
function placesByKey({ names, keys }: FigureColumns): ReadonlyMap<string, readonly number[]> {
  const all = names.map((): number[] => []);
  keys.forEach((key, place) => all[key]?.push(place));
  const groups = new Map<string, readonly number[]>();
  names.forEach((name, at) => {
    const places = all[at] ?? [];
    const key = places.length < ENOUGH ? widened(name) : name;
    const known = groups.get(key);
    groups.set(key, known ? [...known, ...places].sort((one, other) => one - other) : places);
  });
  return groups;
}

function widened(key: string): string {
  const { name, like } = keyParts(key);
  return `${name}\n\n${like}`;
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

function figureAt({ experience, like, places }: Group, at: number): FigureOf | undefined {
  const [file, place] = figurePlace(experience.columns, places[at] ?? -1);
  const figure = experience.inWords(file)[place];
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
