/** Edits of one record of a studio as somebody might make them, most of which its schema allows. */
import { addDays } from '../../../src/number/date.ts';
import type { Raw, RawFile, RawMap } from '../../../src/read/raw.ts';
import type { RandomSource } from '../../helpers/random-source.js';

type Files = readonly RawFile[];

const DAY = /^\d{4}-\d\d-\d\d$/;
const NUMBER = /^-?\d+(?:\.\d+)?/;

/** The files with one record changed, gone or come, or now and then a setting. */
export function edited(files: Files, random: RandomSource): Files {
  // Kinds that are in many files are not edited more than others.
  const kind = random.pick([...new Set(files.map((each) => each.kind))]);
  const file = random.pick(files.filter((each) => each.kind === kind));
  const root = random.pick(file.kind === 'studio' ? OF_SETTINGS : OF_RECORDS)(file, files, random);
  return files.map((each) => (each === file ? { ...each, root } : each));
}

type Edit = (file: RawFile, files: Files, random: RandomSource) => RawMap;

const OF_RECORDS: readonly Edit[] = [
  (file, _, random) => without(file.root, pickId(file, random)),
  (file, _, random) => {
    const id = pickId(file, random);
    return withKey(file.root, `${id}x`, file.root[id] ?? '');
  },
  (file, files, random) => onRecord(file, random, (raw) => borrowed(raw, { file, files, random })),
  (file, files, random) => onRecord(file, random, (raw) => borrowed(raw, { file, files, random })),
  (file, files, random) => onRecord(file, random, (raw) => renamed(raw, { file, files, random })),
  (file, files, random) => onRecord(file, random, (raw) => renamed(raw, { file, files, random })),
  (file, _, random) => onRecord(file, random, (raw) => onLeaves(raw, random, otherNumber)),
  (file, _, random) => onRecord(file, random, (raw) => onLeaves(raw, random, otherDay)),
];

const OF_SETTINGS: readonly Edit[] = [
  ({ root }, _, random) => withKey(root, 'starts', addDays('2026-01-01', random.int(0, 60))),
  ({ root }) => without(root, 'starts'),
  ({ root }) => withKey(root, 'sales-tax', 'none'),
  ({ root }) => without(root, 'sales-tax'),
  ({ root }, _, random) => withKey(root, 'currency', random.pick(['USD', 'JPY', 'XXZ'])),
  ({ root }) => without(root, 'taxes'),
];

function pickId({ root }: RawFile, random: RandomSource): string {
  const ids = Object.keys(root);
  return ids.length === 0 ? 'none' : random.pick(ids);
}

function onRecord(file: RawFile, random: RandomSource, edit: (raw: RawMap) => RawMap): RawMap {
  const id = pickId(file, random);
  const raw = file.root[id];
  return raw === undefined ? file.root : withKey(file.root, id, edit(raw as RawMap));
}

interface Around {
  readonly file: RawFile;
  readonly files: Files;
  readonly random: RandomSource;
}

/** With a field as another record of the kind has it, or without it. */
function borrowed(raw: RawMap, { file, files, random }: Around): RawMap {
  const others = files
    .filter(({ kind }) => kind === file.kind)
    .flatMap(({ root }) => Object.values(root));
  const other = random.pick(others) as RawMap;
  const keys = [...new Set([...Object.keys(raw), ...Object.keys(other)])];
  const key = random.pick(keys);
  const value = other[key];
  return value === undefined ? without(raw, key) : withKey(raw, key, value);
}

/** With another id where it names one, mostly of the same kind. */
function renamed(raw: RawMap, { files, random }: Around): RawMap {
  const kinds = new Map(
    files.flatMap(({ kind, root }) => Object.keys(root).map((id) => [id, kind])),
  );
  return onLeaves(raw, random, (leaf) => {
    const kind = kinds.get(leaf);
    if (kind === undefined) return leaf;
    if (random.chance(0.1)) return `${leaf}q`;
    const alike = [...kinds].filter((each) => each[1] === kind).map(([id]) => id);
    return random.pick(random.chance(0.9) ? alike : [...kinds.keys()]);
  });
}

function otherNumber(leaf: string, random: RandomSource): string {
  if (DAY.test(leaf)) return leaf;
  return leaf.replace(NUMBER, (digits) => random.pick(['0', '1', `${digits}0`, '40', '3']));
}

function otherDay(leaf: string, random: RandomSource): string {
  return DAY.test(leaf) ? addDays(leaf, random.pick([-400, -30, -3, 3, 30, 400])) : leaf;
}

type OnLeaf = (leaf: string, random: RandomSource) => string;

/** With about half of its texts changed, where the change is for them. */
function onLeaves<T extends Raw>(raw: T, random: RandomSource, change: OnLeaf): T {
  if (typeof raw === 'string') return (random.chance(0.5) ? change(raw, random) : raw) as T;
  if (Array.isArray(raw))
    return (raw as readonly Raw[]).map((item) => onLeaves(item, random, change)) as unknown as T;
  const entries = Object.entries(raw as RawMap);
  return mapOf(entries.map(([key, value]) => [key, onLeaves(value, random, change)])) as T;
}

function withKey(map: RawMap, key: string, value: Raw): RawMap {
  return mapOf([...Object.entries(map).filter(([each]) => each !== key), [key, value]]);
}

/** A map that lacks a key. */
export function without(map: RawMap, key: string): RawMap {
  return mapOf(Object.entries(map).filter(([each]) => each !== key));
}

function mapOf(entries: readonly (readonly [string, Raw])[]): RawMap {
  return Object.assign(Object.create(null) as RawMap, Object.fromEntries(entries));
}
