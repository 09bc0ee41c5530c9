/** Where a record begins and ends in its file, with its comments, and where the next one goes. */
import { isPlainNumber } from '../read/core-value.ts';
import type { Raw } from '../read/raw.ts';
import { flowText, keyHead } from './emit.ts';
import { addToFlow, removeFromFlow } from './flow.ts';
import { columnOf, insertLines, lineAbove, lineStart, pastLine, type Edit } from './lines.ts';
import type { Content, GroupPart, Layout, Part } from './parts.ts';
import { ownCommentsFrom, pastBlankLines, pastOwnComments } from './remove.ts';

/**
 * Puts a record at the end of the file: after everything that stands there, comments too, but before
 * the line `...`. A blank line comes between unless the last two records have none, and
 * after a comment, which would else seem to be about the new record.
 * @param record a layout of the record alone, in block style
 */
export function appendEdits(file: Layout, id: string, record: Layout): Edit[] {
  const group = file.root?.type === 'map' ? file.root : undefined;
  if (group?.flow) return addToFlow(file.text, group, recordOnOneLine(id, record));
  const margin = ' '.repeat(group ? columnOf(file.text, group.start) : 0);
  const lines = record.text.replace(/\n$/, '').split('\n');
  const indented = lines.map((line) => (line === '' ? '' : margin + line));
  const gap = needsGap(file, group) ? [''] : [];
  return [insertLines(file.text, file.close, [...gap, ...indented])];
}

function needsGap({ text, close }: Layout, group: GroupPart | undefined): boolean {
  const above = text.slice(0, close).trimEnd();
  const last = text.slice(lineStart(text, above.length), close);
  if (last.split('\n').length > 2) return false;
  const end = group ? pastLine(text, group.end) : 0;
  if (close > end && last.trimStart().startsWith('#')) return true;
  const [former, latest] = group?.entries.slice(-2) ?? [];
  if (!group || !former || keepsBlankLines(text, group)) return false;
  if (!latest) return true;
  return hasBlankLine(text.slice(pastLine(text, former.end), lineStart(text, latest.start)));
}

function hasBlankLine(lines: string): boolean {
  return lines.split('\n').some((line, at, all) => at < all.length - 1 && line.trim() === '');
}

// A block scalar marked with + takes in the blank lines under it.
function keepsBlankLines(text: string, part: Part): boolean {
  if (part.type === 'other') return false;
  if (part.type === 'scalar')
    return part.style === 'block' && /^[|>]\d?\+/.test(text.slice(part.start, part.start + 3));
  const last = part.entries.at(-1);
  return last !== undefined && keepsBlankLines(text, last.value);
}

function recordOnOneLine(id: string, { text, root, content }: Layout): string {
  const numbers = new Set(root ? bareNumberKeys(text, root, id) : []);
  const value = content instanceof Map ? asRaw(content.get(id) ?? '') : '';
  const isNumberKey = (key: string) => numbers.has(key);
  return `${keyHead(id, true)} ${flowText({ key: id, value, isNumberKey })}`;
}

// The keys under which the record's text has numbers without quotes: so they are to stay.
function bareNumberKeys(text: string, part: Part, key: string): string[] {
  if (part.type === 'other') return [];
  if (part.type === 'scalar') return isPlainNumber(text.slice(part.start, part.end)) ? [key] : [];
  return part.entries.flatMap((entry) => bareNumberKeys(text, entry.value, entry.key?.text ?? key));
}

/** Content as plain data, mappings without a prototype. */
export function asRaw(content: Content): Raw {
  if (typeof content === 'string') return content;
  if (Array.isArray(content)) return content.map(asRaw);
  const map = Object.create(null) as Record<string, Raw>;
  for (const [key, value] of content) map[key] = asRaw(value);
  return map;
}

/**
 * Removes a record with the comments that belong to it: the comment lines directly above it at its
 * own margin, except those that begin on the file's first line, which are about the file, and the
 * comment lines below it that stand further in than the margin. Of the blank lines above and below,
 * those below go too, or those above where nothing comes after.
 */
export function removeEdits(file: Layout, group: GroupPart, index: number): Edit[] {
  const { text } = file;
  const entry = group.entries[index];
  if (!entry) return [];
  if (group.flow) return removeFromFlow(text, group, index);
  const former = group.entries[index - 1];
  const floor = former ? pastLine(text, former.end) : 0;
  const start = withoutHeader(text, entry.start, ownCommentsFrom(text, entry.start, floor));
  const end = pastOwnComments(text, pastLine(text, entry.end), columnOf(text, entry.start));
  const below = pastBlankLines(text, end);
  const above = fromBlankLines(text, start, floor);
  if (below >= file.close && above > 0) return [{ start: above, end, text: '' }];
  const gap = above < start || start === lineStart(text, 0) || text[floor - 1] === '\n';
  return [{ start, end: gap ? below : end, text: '' }];
}

function withoutHeader(text: string, start: number, from: number): number {
  return from === lineStart(text, 0) ? lineStart(text, start) : from;
}

function fromBlankLines(text: string, start: number, floor: number): number {
  let from = start;
  let above = lineAbove(text, from, floor);
  while (above !== undefined && text.slice(above, from).trim() === '') {
    from = above;
    above = lineAbove(text, from, floor);
  }
  return from;
}
