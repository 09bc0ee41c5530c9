/** Cuts one record's lines out of a file's text. */
import { cutRecords } from '../read/records.ts';
import { withoutMark } from './given.ts';

/** The record as it stands in the text, up to its last line with something on it; empty for none. */
export function recordIn(text: string, id: string): string {
  const plain = withoutMark(text).replaceAll('\r\n', '\n');
  const span = cutRecords(plain).records.find((record) => record.id === id);
  return span ? `${plain.slice(span.start, span.end).trimEnd()}\n` : '';
}
