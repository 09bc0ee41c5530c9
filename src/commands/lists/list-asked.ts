/** The list and the map that a command names, read; or what is wrong with them. */
import { resolve } from 'node:path';
import { readListMap, type ListMap } from '../../entry/lists/map.ts';
import { readNotes, readTable, type ListTable } from '../../entry/lists/table.ts';
import type { Finding } from '../../problem.ts';
import { LISTS_FOLDER } from '../../read/kinds.ts';
import { encodingOf, listBytes, listNames, listText } from '../../read/list-file.ts';
import { readSheet, sheetsOnDisk } from '../../read/tax-sheet.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import { isRefusal, type Refusal, type World } from '../world.ts';

/** What is wrong with a list or a map, place by place. */
export interface ListFaults {
  readonly findings: readonly Finding[];
}

/** Whether it is that. */
export function isFaulty(value: object): value is ListFaults {
  return 'findings' in value;
}

/** What a command names. */
interface AskedList {
  /** A path, or `-` for standard input. */
  readonly list: string | undefined;
  /** The name of a map, or its path in the studio. */
  readonly by: string | undefined;
}

/** A list with the map that it is read by. */
export interface ReadList {
  readonly map: ListMap;
  readonly table: ListTable;
}

/** Reads both; `today` is for the days of notes. */
export async function readAskedList(
  { list, by }: AskedList,
  { folder, asOf }: { readonly folder: string; readonly asOf: string },
  world: World,
): Promise<ReadList | ListFaults | Refusal> {
  if (by === undefined) return { refused: noMap(folder, nameOfList(list)) };
  const map = await readNamedMap(folder, by);
  if (isRefusal(map) || isFaulty(map)) return map;
  const bytes = await bytesOfList(list, world);
  if (!Buffer.isBuffer(bytes)) return bytes;
  const file = nameOfList(list);
  const text = listText(bytes, map.encoding);
  if (text === undefined)
    return {
      refused: `${file} is not written in ${map.encoding}; write encoding: ${encodingOf(bytes)} in ${map.file}`,
    };
  if (map.form === 'notes') return { map, table: readNotes({ file, text }, asOf) };
  const table = readTable({ file, text }, map);
  return 'rows' in table ? { map, table } : { findings: [table] };
}

/** The bytes of the list that was named. */
export async function bytesOfList(
  list: string | undefined,
  world: World,
): Promise<Buffer | ListFaults | Refusal> {
  if (list === undefined) return { refused: 'say which list: a file, or - for standard input' };
  if (list === '-') return Buffer.from(await world.readInput());
  const bytes = listBytes(resolve(world.folder, list), list);
  return Buffer.isBuffer(bytes) ? bytes : { findings: [bytes] };
}

/** What messages call the list. */
export function nameOfList(list: string | undefined): string {
  return list === undefined || list === '-' ? 'standard input' : list;
}

const MAP_NAME = /^[A-Za-z][A-Za-z0-9-]*$/;

/** `shop` and `lists/shop.yaml` are the same map; undefined for what can't be one. */
export function mapNamed(by: string): Pick<ListMap, 'name' | 'file'> | undefined {
  const name = by.replace(new RegExp(`^${LISTS_FOLDER}/`), '').replace(/\.yaml$/, '');
  return MAP_NAME.test(name) ? { name, file: `${LISTS_FOLDER}/${name}.yaml` } : undefined;
}

async function readNamedMap(folder: string, by: string): Promise<ListMap | ListFaults | Refusal> {
  const named = mapNamed(by);
  if (!named)
    return {
      refused: `"${by}" is not the name of a map: a letter, then letters, digits and hyphens`,
    };
  const known = listNames(folder);
  if (!known.includes(named.name)) {
    const near = nearest(named.name, known);
    const hint = didYouMean(near, draftHint(by), '');
    return { refused: `there is no map ${named.file} in this studio; ${hint}` };
  }
  const sheet = await readSheet(named.file, sheetsOnDisk(folder));
  if ('unread' in sheet) return { findings: sheet.unread.findings };
  const map = readListMap(sheet.content.root, named);
  return 'columns' in map ? map : { findings: map };
}

function noMap(folder: string, list: string): string {
  const known = listNames(folder);
  const say = `say by which map ${list} is to be read`;
  if (known.length === 0) return `${say}, as in --by shop; ${draftHint('shop')}`;
  return `${say}: --by ${known.join(' or --by ')}`;
}

function draftHint(by: string): string {
  return `to begin one, run: saggar take-in FILE --by ${by} --draft --write`;
}
