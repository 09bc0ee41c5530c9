/** Which record a mistyped id most likely means: by the ids there are, or by the names of the records. */
import type { Book, Entry } from '../book.ts';
import { nearest } from '../nearest.ts';
import type { Finding, Mistyped } from '../problem.ts';
import type { EachScene, Meant } from './rule.ts';

/** The nearest id, looked for once for each mistyped one however often it is used. */
export function meantIn(book: Book): EachScene['meant'] {
  const known = new Map<string, Meant>();
  return (mistyped) => {
    const key = `${mistyped.id} ${mistyped.to.join(' ')} ${mistyped.channel ?? ''}`;
    const found = known.get(key) ?? lookFor(book, mistyped);
    known.set(key, found);
    return found;
  };
}

function lookFor(book: Book, { id, to, words, channel }: Mistyped): Meant {
  const all = to.flatMap((kind): (readonly [string, Entry])[] => [...book[kind].entries()]);
  const fitting = all.filter(
    ([, record]) => channel === undefined || ('kind' in record && record.kind === channel),
  );
  const ids = fitting.map(([each]) => each);
  const near = nearest(id, [...words, ...ids]) ?? idOfName(id, fitting);
  return { near, one: ids[0] ?? words[0] };
}

function idOfName(
  text: string,
  records: readonly (readonly [string, Entry])[],
): string | undefined {
  const ids = new Map<string, string>();
  for (const [id, record] of records)
    if ('name' in record && typeof record.name === 'string') ids.set(record.name, id);
  return ids.get(nearest(text, ids.keys()) ?? '');
}

/** The same findings, those of a text that can't be an id with what it may mean. */
export function withMeaning(findings: readonly Finding[], book: Book): readonly Finding[] {
  if (!findings.some(({ meaning }) => meaning)) return findings;
  const meant = meantIn(book);
  return findings.map((finding) => {
    const { meaning, ...told } = finding;
    const near = meaning && meant(meaning).near;
    return near === undefined ? told : { ...told, hint: `did you mean "${near}"?` };
  });
}
