/** What is said of a row that is not clear: where it stands, what is wrong, and what to write into the map. */
import type { Finding } from '../../problem.ts';
import { placeOfCell, type ListRow } from './table.ts';

/** A row, what is wrong with it and what to do; `value` is the cell that it is about. */
interface Unclear {
  readonly message: string;
  readonly hint: string;
  readonly value?: string;
}

/** A finding at a row of a list. */
export function unclearRow(row: ListRow, { message, hint, value }: Unclear): Finding {
  return {
    rule: 'list-row',
    severity: 'error',
    at: placeOfCell(row, value),
    message,
    hint,
  };
}

/** A line of a map: a word of the list, and what it means. */
export function mapLine(word: string, meant: string): string {
  return `${inYaml(word)}: ${inYaml(meant)}`;
}

/** A text as a map has it, in double quotes unless it is a plain word. */
export function inYaml(text: string): string {
  return /^[A-Za-z][\w-]*$/.test(text) && !YAML_WORDS.test(text) ? text : JSON.stringify(text);
}

const YAML_WORDS = /^(?:y|n|yes|no|on|off|true|false|null)$/i;
