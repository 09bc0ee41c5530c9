/**
 * A fast reader that handles block scalars as well: soundly, or with a fault that is easily made and
 * that no everyday text shows. It drops lines that have nothing but blanks.
 */
import type { Raw, RawMap } from '../../../src/read/raw.ts';
import { fast } from './readers.ts';

const BLOCK = /^((?: *- )? *[\w-]+:) \|$/;

/** Reads as the fast reader, and literal block scalars with texts; `drops` plants the fault. */
export function blockReader(drops: boolean): (text: string) => RawMap | undefined {
  return (text) => {
    const texts: string[] = [];
    const lines = text.split('\n');
    const rest: string[] = [];
    for (let index = 0; index < lines.length; index++) {
      const line = lines[index] ?? '';
      const lead = BLOCK.exec(line)?.[1];
      const block = lead === undefined ? undefined : blockAt(lines, index + 1);
      if (block === undefined) {
        rest.push(line);
        continue;
      }
      rest.push(`${lead} block-${texts.length}`);
      texts.push(literal(block, drops));
      index += block.length;
    }
    const root = fast(rest.join('\n'))?.root;
    return root && (putBack(root, texts) as RawMap);
  };
}

/** The lines of a block scalar whose first line is there and indented; all of them as far in as that. */
function blockAt(lines: readonly string[], from: number): readonly string[] | undefined {
  const first = lines[from] ?? '';
  const margin = /^ */.exec(first)?.[0] ?? '';
  const head = /^(?: *- )? */.exec(lines[from - 1] ?? '')?.[0].length ?? 0;
  if (first.trim() === '' || margin.length <= head) return undefined;
  let end = from;
  while (end < lines.length && (lines[end]!.startsWith(margin) || lines[end]!.trim() === '')) end++;
  return lines.slice(from, end).join('\n').includes('\t') ? undefined : lines.slice(from, end);
}

function literal(block: readonly string[], drops: boolean): string {
  const margin = /^ */.exec(block[0] ?? '')?.[0].length ?? 0;
  const kept = drops ? block.filter((line) => line.trim() !== '' || line === '') : block;
  const text = kept.map((line) => line.slice(margin)).join('\n');
  return text.replace(/\n*$/, '\n');
}

function putBack(raw: Raw, texts: readonly string[]): Raw {
  if (typeof raw === 'string')
    return /^block-\d+$/.test(raw) ? (texts[Number(raw.slice(6))] ?? raw) : raw;
  if (Array.isArray(raw)) return (raw as readonly Raw[]).map((item) => putBack(item, texts));
  return Object.fromEntries(
    Object.entries(raw).map(([key, value]) => [key, putBack(value, texts)]),
  );
}
