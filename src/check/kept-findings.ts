/** Findings that were kept between runs: taken only where each of them is one. */
import type { Finding } from '../problem.ts';

/** Findings as JSON gives them back; undefined where they are something else. */
export function asFindings(kept: unknown): readonly Finding[] | undefined {
  return Array.isArray(kept) && kept.every(isFinding) ? kept : undefined;
}

function isFinding(value: unknown): value is Finding {
  const { rule, severity, at, message, hint, related = [] } = fieldsOf(value);
  return (
    areTexts([rule, message, hint]) &&
    (severity === 'error' || severity === 'warning') &&
    isPlace(at) &&
    Array.isArray(related) &&
    related.every((each) => isPlace(fieldsOf(each)['at']) && areTexts([fieldsOf(each)['message']]))
  );
}

function isPlace(value: unknown): boolean {
  const { file, path, line, column, width, source } = fieldsOf(value);
  if (!areTexts([file])) return false;
  if (Array.isArray(path))
    return path.every((step) => typeof step === 'string' || Number.isInteger(step));
  return [line, column, width].every(Number.isInteger) && areTexts([source]);
}

function areTexts(values: readonly unknown[]): boolean {
  return values.every((value) => typeof value === 'string');
}

function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
}
