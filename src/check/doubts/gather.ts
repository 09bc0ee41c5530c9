/** Gathers the figures of records that are held against each other. */
import type { Entry, Kind, NamedBook } from '../../book.ts';
import { dayNumber } from '../../number/date.ts';
import { cached, cachedFor } from '../../once.ts';
import type { Rule, UsualLook } from '../rule.ts';
import type { Figure, FigureOf } from './figure.ts';

/** A look at what is usual, and the rule that it is part of. */
export interface UsualOf {
  readonly rule: Rule;
  readonly look: UsualLook;
  /** Looks of a rule that say the same of a figure have one name: their figures are alike. */
  readonly name: string;
  /** The key of figures of no narrower sort, made once of all that are alike. */
  readonly keyOf: (like: string) => string;
}

/** All such looks of some rules. */
export const usualLooksOf = cachedFor((rules: readonly Rule[]): readonly UsualOf[] =>
  rules.flatMap((rule) =>
    rule.looks.flatMap((look) => (look.reach === 'usual' ? [named(rule, look)] : [])),
  ),
);

function named(rule: Rule, look: UsualLook): UsualOf {
  const name = `${rule.name}\n${look.what}`;
  return { rule, look, name, keyOf: cached((like) => `${name}\n\n${like}`) };
}

const byKind = cachedFor((rules: readonly Rule[]): ReadonlyMap<Kind, readonly UsualOf[]> => {
  const looks = usualLooksOf(rules);
  const kinds = new Set(looks.flatMap(({ look }) => look.of));
  return new Map(
    [...kinds].map((kind) => [kind, looks.filter(({ look }) => look.of.includes(kind))]),
  );
});

/** Records of one kind, and the book that they may ask by id. */
interface ToGather {
  readonly rules: readonly Rule[];
  readonly book: NamedBook;
  readonly kind: Kind;
  readonly records: Iterable<Entry>;
}

/** Figures of some records as plain lists, so that many cost little to keep. */
export interface Figures {
  /** The name of each one's look, its narrower sort or none, and what it is alike with, on lines. */
  readonly keys: readonly string[];
  readonly sizes: readonly number[];
  /** As numbers; 0 for none. */
  readonly days: readonly number[];
}

export const NO_FIGURES: Figures = { keys: [], sizes: [], days: [] };

/** The figures of records, look by look in the order of the records. */
export function gatheredIn(asked: ToGather): Figures {
  if (!byKind(asked.rules).has(asked.kind)) return NO_FIGURES;
  const [keys, sizes, days]: [string[], number[], number[]] = [[], [], []];
  eachFigure(asked, ({ name, keyOf }, { like, sort, size, day }) => {
    keys.push(sort === undefined ? keyOf(like) : `${name}\n${sort}\n${like}`);
    sizes.push(size);
    days.push(day === '' ? 0 : dayNumber(day));
  });
  return { keys, sizes, days };
}

/** The same figures with their words and records. */
export function gatheredWithWords(asked: ToGather): readonly FigureOf[] {
  const figures: FigureOf[] = [];
  eachFigure(asked, (_, figure, record) => figures.push({ ...figure, record }));
  return figures;
}

function eachFigure(
  { rules, book, kind, records }: ToGather,
  take: (by: UsualOf, figure: Figure, record: Entry) => void,
): void {
  const looks = byKind(rules).get(kind) ?? [];
  for (const record of records)
    for (const by of looks) {
      const note = (figure: Figure): void => {
        if (Number.isFinite(figure.size)) take(by, figure, record);
      };
      by.look.gather(record as never, { book, note }, kind as never);
    }
}
