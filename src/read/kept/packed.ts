/** Records as the cache keeps them: one table of texts and of key lists, and numbers that point into it. */
import { Buffer } from 'node:buffer';
import { isList, newMapping, newTable, type Raw, type RawFile, type RawMap } from '../raw.ts';

/** One file with its content. */
export type KnownContent = Pick<RawFile, 'file' | 'root'>;

/** What is looked for in records: a key, or texts that stand as a whole key or value. */
export type Sought = { readonly key: string } | { readonly texts: ReadonlySet<string> };

/** The cached files of a kind; the content is made when it is asked for. */
export interface KnownFiles {
  /** The ids of a file's records in which something is; the rest of them is not made. */
  readonly idsWith: (file: string, sought: Sought) => readonly string[];
  readonly contentOf: (file: string) => RawMap;
}

// The two lowest bits of a number say what it is; the rest is an index or a length.
const TEXT = 0;
const LIST = 1;
const MAP = 2;

/** A file in the table: its path, and where its numbers begin. */
type FileRow = readonly [string, number];

interface PackedTable {
  readonly files: readonly FileRow[];
  /** The keys of a mapping, in their order; many mappings share them. */
  readonly shapes: readonly (readonly string[])[];
  readonly texts: readonly string[];
}

const WORD = Uint32Array.BYTES_PER_ELEMENT;

/** Packs files into bytes; their number is a multiple of four. */
export function packFiles(files: readonly KnownContent[]): Uint8Array {
  const packing = newPacking();
  const rows = files.map(({ file, root }): FileRow => {
    const start = packing.numbers.length;
    packTable(packing, root);
    return [file, start];
  });
  const table: PackedTable = { files: rows, shapes: packing.shapes, texts: packing.texts };
  return joined(asciiJson(table), packing.numbers);
}

/** Unpacks what `packFiles` made; throws on anything else. */
export function unpackFiles(bytes: Uint8Array): KnownFiles {
  const [length = 0] = new Uint32Array(bytes.buffer, bytes.byteOffset, 1);
  const json = Buffer.from(bytes.buffer, bytes.byteOffset + WORD, length).toString('latin1');
  const table = JSON.parse(json) as PackedTable;
  if (![table.texts, ...table.shapes].every(areTexts)) odd();
  const numbers = new Uint32Array(bytes.buffer, bytes.byteOffset + WORD + length);
  const starts = new Map(table.files);
  const find = finderIn(table, numbers);
  return {
    idsWith: (file, sought) => find(starts.get(file) ?? 0, sought),
    contentOf: (file) => unpackTable(table, numbers, starts.get(file) ?? 0),
  };
}

/** JSON in ASCII, padded to whole words. */
function asciiJson(value: unknown): string {
  const json = JSON.stringify(value).replace(
    /[\u0080-\uffff]/g,
    (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  return json.padEnd(Math.ceil(json.length / WORD) * WORD);
}

function joined(json: string, numbers: readonly number[]): Uint8Array {
  const bytes = new Uint8Array(WORD + json.length + numbers.length * WORD);
  new Uint32Array(bytes.buffer, 0, 1)[0] = json.length;
  Buffer.from(bytes.buffer, WORD).write(json, 'latin1');
  new Uint32Array(bytes.buffer, WORD + json.length).set(numbers);
  return bytes;
}

/** The keys that stand anywhere in the records of a file. */
export function keysIn(root: RawMap): readonly string[] {
  const keys = new Set<string>();
  for (const id in root) gatherKeys(root[id] ?? '', keys);
  return [...keys].sort();
}

function gatherKeys(raw: Raw, keys: Set<string>): void {
  if (typeof raw === 'string') return;
  if (isList(raw)) for (const item of raw) gatherKeys(item, keys);
  else
    for (const key in raw) {
      keys.add(key);
      gatherKeys(raw[key] ?? '', keys);
    }
}

interface Packing {
  readonly numbers: number[];
  readonly shapes: (readonly string[])[];
  readonly shapeIndex: Map<string, number>;
  /** Number of keys → the shape of that many that was met last: records alike often follow each other. */
  readonly recent: Map<number, number>;
  readonly texts: string[];
  readonly textIndex: Map<string, number>;
}

function newPacking(): Packing {
  const shapes = { shapes: [], shapeIndex: new Map(), recent: new Map() };
  return { numbers: [], ...shapes, texts: [], textIndex: new Map() };
}

/** A file's own mapping: the number of its records, then each id and record. */
function packTable(packing: Packing, root: RawMap): void {
  const ids = Object.keys(root);
  packing.numbers.push(ids.length);
  for (const id of ids) {
    packing.numbers.push(textNumber(packing, id));
    pack(packing, root[id] ?? '');
  }
}

function pack(packing: Packing, raw: Raw): void {
  if (typeof raw === 'string') packing.numbers.push(textNumber(packing, raw));
  else if (isList(raw)) {
    packing.numbers.push(raw.length * 4 + LIST);
    for (const item of raw) pack(packing, item);
  } else packMap(packing, raw);
}

function packMap(packing: Packing, map: RawMap): void {
  const keys = Object.keys(map);
  packing.numbers.push(shapeNumber(packing, keys));
  for (const key of keys) pack(packing, map[key] ?? '');
}

function textNumber({ texts, textIndex }: Packing, text: string): number {
  const known = textIndex.get(text);
  if (known !== undefined) return known * 4 + TEXT;
  textIndex.set(text, texts.length);
  return (texts.push(text) - 1) * 4 + TEXT;
}

function shapeNumber(packing: Packing, keys: readonly string[]): number {
  const { shapes, recent } = packing;
  const last = recent.get(keys.length);
  if (last !== undefined && shapes[last]?.every((key, index) => key === keys[index]))
    return last * 4 + MAP;
  const index = shapeOf(packing, keys);
  recent.set(keys.length, index);
  return index * 4 + MAP;
}

function shapeOf({ shapes, shapeIndex }: Packing, keys: readonly string[]): number {
  // No key holds a line feed: the readers refuse such keys.
  const name = keys.join('\n');
  const known = shapeIndex.get(name);
  if (known !== undefined) return known;
  shapeIndex.set(name, shapes.length);
  return shapes.push(keys) - 1;
}

/** Where unpacking stands; one object, as in the fast reader. */
const at = {
  next: 0,
  numbers: new Uint32Array() as Uint32Array,
  texts: [] as readonly string[],
  shapes: [] as readonly (readonly string[])[],
};

function unpackTable(table: PackedTable, numbers: Uint32Array, start: number): RawMap {
  at.numbers = numbers;
  at.texts = table.texts;
  at.shapes = table.shapes;
  at.next = start;
  const root = newTable();
  for (let left = nextNumber(); left > 0; left--) {
    const id = at.texts[nextNumber() >>> 2] ?? odd();
    root[id] = unpack();
  }
  return root;
}

/** Finds records by what is in them, number by number. */
function finderIn(
  table: PackedTable,
  numbers: Uint32Array,
): (start: number, what: Sought) => string[] {
  const known = new Map<Sought, ReadonlySet<number>>();
  return (start, what) => {
    const wanted = known.get(what) ?? numbersOf(table, what);
    known.set(what, wanted);
    return wanted.size === 0 ? [] : idsWith({ table, numbers, start }, wanted);
  };
}

/** The numbers of the texts that are sought, and of the lists of keys in which they are. */
function numbersOf({ texts, shapes }: PackedTable, what: Sought): ReadonlySet<number> {
  const isSought = (text: string): boolean =>
    'key' in what ? text === what.key : what.texts.has(text);
  const found = new Set<number>();
  shapes.forEach((keys, index) => {
    if (keys.some(isSought)) found.add(index * 4 + MAP);
  });
  if ('texts' in what)
    texts.forEach((text, index) => {
      if (isSought(text)) found.add(index * 4 + TEXT);
    });
  return found;
}

interface FileAt {
  readonly table: PackedTable;
  readonly numbers: Uint32Array;
  readonly start: number;
}

function idsWith({ table, numbers, start }: FileAt, wanted: ReadonlySet<number>): string[] {
  const ids: string[] = [];
  let next = start + 1;
  for (let left = numbers[start] ?? 0; left > 0; left--) {
    const end = pastValue(table, numbers, next + 1);
    if (numbers.subarray(next + 1, end).some((number) => wanted.has(number)))
      ids.push(table.texts[(numbers[next] ?? 0) >>> 2] ?? '');
    next = end;
  }
  return ids;
}

/** Behind the numbers of a value and of all that is in it. */
function pastValue({ shapes }: PackedTable, numbers: Uint32Array, start: number): number {
  let next = start;
  for (let values = 1; values > 0; values--) {
    const number = numbers[next++] ?? odd();
    if ((number & 3) === LIST) values += number >>> 2;
    else if ((number & 3) === MAP) values += shapes[number >>> 2]?.length ?? odd();
  }
  return next;
}

function areTexts(words: readonly unknown[]): boolean {
  return words.every((word) => typeof word === 'string');
}

/** Numbers that end too soon or lead to nothing, or texts that are none. */
function odd(): never {
  throw new RangeError('what is remembered of records is not as it was kept');
}

function nextNumber(): number {
  return at.numbers[at.next++] ?? odd();
}

function unpack(): Raw {
  const number = nextNumber();
  const type = number & 3;
  const index = number >>> 2;
  if (type === TEXT) return at.texts[index] ?? odd();
  return type === LIST ? unpackList(index) : unpackMap(at.shapes[index] ?? odd());
}

function unpackList(length: number): readonly Raw[] {
  const list: Raw[] = [];
  for (let left = length; left > 0; left--) list.push(unpack());
  return list;
}

function unpackMap(keys: readonly string[]): RawMap {
  const map = newMapping();
  for (const key of keys) map[key] = unpack();
  return map;
}
