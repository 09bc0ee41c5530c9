/** What records name in which a rule found a mistake that may make the book run short elsewhere. */
import type { Book } from '../book.ts';
import { isDecimal } from '../number/decimal.ts';
import type { Finding } from '../problem.ts';
import { kindOfPath } from '../read/kinds.ts';
import type { Rule, Unsound } from './rule.ts';

/** What was found by rules in a book. */
interface FoundByRules {
  readonly rules: readonly Rule[];
  readonly book: Book;
  readonly findings: readonly Finding[];
}

/** The same, with all that such records name: one mistake is one problem. */
export function withUnsettled(unsound: Unsound, { rules, book, findings }: FoundByRules): Unsound {
  const unsettling = new Set(rules.filter(({ unsettles }) => unsettles).map(({ name }) => name));
  const causes = findings.filter(({ rule }) => unsettling.has(rule));
  if (causes.length === 0) return unsound;
  const texts = new Set(unsound.texts);
  for (const { at, concerns = [] } of causes) {
    for (const id of concerns) texts.add(id);
    const kind = kindOfPath(at.file);
    const id = 'path' in at ? String(at.path[0]) : '';
    if (kind) gather(book[kind].get(id), texts);
  }
  return { ...unsound, texts };
}

function gather(value: unknown, texts: Set<string>): void {
  if (typeof value === 'string') texts.add(value);
  else if (typeof value === 'object' && value !== null && !isDecimal(value))
    for (const part of Object.values(value)) gather(part, texts);
}
