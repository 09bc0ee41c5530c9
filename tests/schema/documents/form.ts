/** The form of good and bad records, and the file that one makes. */
import type { Kind } from '../../../src/book.ts';

/** A record that is sound, and changes that keep it so or don't: `key: value`, or `-key` to drop it. */
export interface Documents {
  readonly base: Readonly<Record<string, string>>;
  readonly good: readonly string[];
  readonly bad: readonly string[];
}

/** The file that a base record makes with some changes. */
export function fileOf(
  kind: Kind | 'studio',
  base: Documents['base'],
  ...changes: readonly string[]
): string {
  const fields = new Map(Object.entries(base));
  for (const change of changes) applyTo(fields, change);
  const lines = [...fields].map(([key, value]) => `${key}: ${value}`);
  return kind === 'studio' ? `${lines.join('\n')}\n` : `x1:\n  ${lines.join('\n  ')}\n`;
}

function applyTo(fields: Map<string, string>, change: string): void {
  if (change.startsWith('-')) fields.delete(change.slice(1));
  const at = change.indexOf(': ');
  if (!change.startsWith('-')) fields.set(change.slice(0, at), change.slice(at + 2));
}

/** What is no date, and no date at all. */
export const NO_DATES = [
  'date: 2026-02-30',
  'date: 8.3.2026',
  'date: 2026',
  'date: 20260308',
  '-date',
];
