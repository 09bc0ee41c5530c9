/** Counts and figures as people read them. */

/** `12345.60` → `12,345.60`: thousands set apart. */
export function setApart(digits: string): string {
  const point = digits.indexOf('.');
  const whole = point === -1 ? digits : digits.slice(0, point);
  if (whole.length < 4) return digits;
  return whole.replace(/\B(?=(?:\d{3})+$)/g, ',') + digits.slice(whole.length);
}

/** A count with its noun: `1 piece`, `3 pieces`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** `, and 3 more lines` after what is said of the first; nothing where there are no more. */
export function andMore(count: number, one: string): string {
  return count === 0 ? '' : `, and ${counted(count, `more ${one}`)}`;
}

/** A text that begins with a capital letter. */
export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The sentences for which there is cause. */
export function sentences(...all: readonly (string | false | undefined)[]): string[] {
  return all.filter((sentence) => typeof sentence === 'string');
}

/** A sentence with its full stop. */
export function ended(text: string): string {
  return text.endsWith('.') ? text : `${text}.`;
}

/** A path as it is typed to change a record, with list items counted from 1: `lines.1.price`. */
export function pathWords(path: readonly (string | number)[]): string {
  return path.map((step) => (typeof step === 'number' ? step + 1 : step)).join('.');
}

const SHORT_ID = 7;

/** Which commit a book is of, in words: `at filed-2025 (4f2a1c9)`; an id is shortened. */
export function revisionWords({
  name,
  id,
}: {
  readonly name: string;
  readonly id: string;
}): string {
  const short = id.slice(0, SHORT_ID);
  return id.startsWith(name) ? `at ${short}` : `at ${name} (${short})`;
}
