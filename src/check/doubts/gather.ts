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
  /** The key of figures of a narrower sort, or of none, made once of all that are alike. */
  readonly keyOf: (sort: string | undefined) => (like: string) => string;
}

/** All such looks of some rules. */
export const usualLooksOf = cachedFor((rules: readonly Rule[]): readonly UsualOf[] =>
  rules.flatMap((rule) =>
    rule.looks.flatMap((look) => (look.reach === 'usual' ? [named(rule, look)] : [])),
  ),
);

function named(rule: Rule, look: UsualLook): UsualOf {
  const name = `${rule.name}\n${look.what}`;
  const keyOf = cached((sort?: string) =>
    cached((like: string) => `${name}\n${sort ?? ''}\n${like}`),
  );
  return { rule, look, name, keyOf };
}

const byKind = cachedFor((rules: readonly Rule[]): ReadonlyMap<Kind, readonly UsualOf[]> => {
  const looks = usualLooksOf(rules);
  const kinds = new Set(looks.flatMap(({ look }) => look.of));
  return new Map(
    [...kinds].map((kind) => [kind, looks.filter(({ look }) => look.of.includes(kind))]),
  );
});

/** The rules by which figures are gathered, and the book that they may ask by id. */
interface GatherFrom {
  readonly rules: readonly Rule[];
  readonly book: NamedBook;
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

type Take = (by: UsualOf, figure: Figure, record: Entry) => void;

/** Goes through the figures of records of one kind, look by look. */
type Walk = (kind: Kind, records: readonly Entry[], take: Take) => void;

/** Gathers the figures of records of one kind. */
export function gatherer(asked: GatherFrom): (kind: Kind, records: readonly Entry[]) => Figures {
  const walk = figureWalk(asked);
  return (kind, records) => {
    if (!byKind(asked.rules).has(kind)) return NO_FIGURES;
    const [keys, sizes, days]: [string[], number[], number[]] = [[], [], []];
    walk(kind, records, ({ keyOf }, { like, sort, size, day }) => {
      keys.push(keyOf(sort)(like));
      sizes.push(size);
      days.push(day === '' ? 0 : dayNumber(day));
    });
    return { keys, sizes, days };
  };
}

/** The same figures with their words and records. */
export function gatheredWithWords(
  asked: GatherFrom,
  kind: Kind,
  records: readonly Entry[],
): readonly FigureOf[] {
  const figures: FigureOf[] = [];
  figureWalk(asked)(kind, records, (_, figure, record) => figures.push({ ...figure, record }));
  return figures;
}

function figureWalk({ rules, book }: GatherFrom): Walk {
  return (kind, records, take) => {
    const looks = byKind(rules).get(kind) ?? [];
    for (const by of looks) {
      let record: Entry;
      const note = (figure: Figure): void => {
        if (Number.isFinite(figure.size)) take(by, figure, record);
      };
      const scene = { book, note };
      for (record of records) by.look.gather(record as never, scene, kind as never);
    }
  };
}
