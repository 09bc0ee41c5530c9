/** The history of one material by days, since a day's use may be told in other rows than of old. */
import type { Answer, Cell, Row } from './old-answers.ts';

/** A history with a row for each day and what happened on it, and one for what the day left; another answer as it is. */
export function byDay(answer: Answer): Answer {
  if (answer.report !== 'materials' || !answer.columns.some(({ key }) => key === 'valueChange'))
    return answer;
  const moved = new Map<string, Row>();
  const left = new Map<string, Row>();
  for (const row of answer.rows) {
    const words = { date: row['date'] ?? null, what: row['what'] ?? null };
    const key = JSON.stringify(words);
    moved.set(key, { ...words, ...summed(moved.get(key), row) });
    const { onHand, value, unitCost } = row;
    const end = { date: words.date, what: 'left that day' };
    left.set(String(words.date), {
      ...end,
      onHand: onHand ?? null,
      value: value ?? null,
      unitCost: unitCost ?? null,
    });
  }
  // It has a bar for each row.
  const notes = answer.notes.map((note) => (note.startsWith('On hand: ') ? 'On hand' : note));
  return { ...answer, rows: [...moved.values(), ...left.values()], notes };
}

function summed(sofar: Row | undefined, row: Row): Row {
  const keys = ['change', 'valueChange'];
  return Object.fromEntries(keys.map((key) => [key, added(sofar?.[key], row[key])]));
}

/** The sum of two decimals of any length, with all digits of the longer one. */
function added(one: Cell | undefined, other: Cell | undefined): string {
  const texts = [String(one ?? '0'), String(other ?? '0')];
  const places = Math.max(...texts.map((text) => (text.split('.')[1] ?? '').length));
  const units = texts.reduce((sum, text) => sum + unitsOf(text, places), 0n);
  const digits = String(units < 0n ? -units : units).padStart(places + 1, '0');
  const point = digits.length - places;
  const text = places === 0 ? digits : `${digits.slice(0, point)}.${digits.slice(point)}`;
  return units < 0n ? `-${text}` : text;
}

function unitsOf(text: string, places: number): bigint {
  const [whole = '', decimals = ''] = text.split('.');
  return BigInt(whole + decimals.padEnd(places, '0'));
}
