/** Reads YAML with a parser that the program does not use, every scalar as text. */
import { FAILSAFE_SCHEMA, load } from 'js-yaml';
import type { Tree } from './layout-data.ts';

/** The content of a file; an empty value is the empty text, an empty file an empty mapping. */
export function secondReading(text: string): Tree {
  return treeOf(load(text, { schema: FAILSAFE_SCHEMA }) ?? {});
}

function treeOf(value: unknown): Tree {
  if (value === null || value === undefined) return '';
  if (Array.isArray(value)) return value.map(treeOf);
  if (typeof value === 'string') return value;
  return new Map(Object.entries(value).map(([key, inner]) => [key, treeOf(inner)]));
}
