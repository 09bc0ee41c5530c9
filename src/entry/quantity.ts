/** Finds a quantity at the beginning of some words: `4 x 25 lb`, `1.5 kg`, `25lb`, `200`. */
import { isUnit } from '../number/unit.ts';

/** The quantity as it is written in a file, and how many words it took. */
export interface TakenQuantity {
  readonly text: string;
  readonly taken: number;
}

const NUMBER = /^\d[\d.,]*$/;
const JOINED = /^(\d[\d.,]*)([A-Za-z].*)$/;

/** Takes a number, perhaps times another, and a unit where one follows; the first word begins with a digit. */
export function readQuantity(words: readonly string[]): TakenQuantity {
  const [first = '', times = '', second = ''] = words;
  const isProduct = NUMBER.test(first) && times === 'x' && /^\d/.test(second);
  if (!isProduct) return withUnit(words, '');
  const { text, taken } = withUnit(words.slice(2), `${first} x `);
  return { text, taken: taken + 2 };
}

function withUnit([number = '', unit = '']: readonly string[], before: string): TakenQuantity {
  const [, digits = '', joined = ''] = JOINED.exec(number) ?? [];
  if (isUnit(joined)) return { text: `${before}${digits} ${joined}`, taken: 1 };
  if (isUnit(unit)) return { text: `${before}${number} ${unit}`, taken: 2 };
  return { text: before + number, taken: 1 };
}
