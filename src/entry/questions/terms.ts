/** The words and ids that a field may hold, with what there is to say of each. */
import type { FieldSpec } from '../../../schema/generated/fields.js';
import type { Kind } from '../../book.ts';
import { isMap, type Raw } from '../../read/raw.ts';
import type { Lexicon } from '../lexicon.ts';
import type { Offer } from './question.ts';

/** A word, and a note on it that may be empty. */
export interface Term {
  readonly word: string;
  readonly note: string;
}

/** The terms of a field; nothing for values that are typed freely. Events come latest first. */
export function termsOfField(spec: FieldSpec, lexicon: Lexicon): readonly Term[] {
  if (spec.type === 'list') return termsOfField(spec.of, lexicon);
  if (spec.type === 'word') return spec.words.map(plainTerm);
  if (spec.type === 'reference')
    return [
      ...spec.to.flatMap((kind) => records(kind, lexicon)),
      ...(spec.words ?? []).map(plainTerm),
    ];
  return 'words' in spec ? (spec.words ?? []).map(plainTerm) : [];
}

/** A word that needs no note. */
export function plainTerm(word: string): Term {
  return { word, note: '' };
}

/** The terms that have what was typed in them, those that begin with it first. */
export function narrowed(terms: readonly Term[], typed: string): readonly Term[] {
  const wanted = typed.toLowerCase();
  const has = ({ word, note }: Term): boolean => `${word} ${note}`.toLowerCase().includes(wanted);
  const leads = ({ word }: Term): boolean => word.toLowerCase().startsWith(wanted);
  const fitting = terms.filter(has);
  return [...fitting.filter(leads), ...fitting.filter((term) => !leads(term))];
}

/** What may be chosen of the terms for a line as far as it is typed. */
export function termOffers(terms: readonly Term[]): (line: string) => readonly Offer[] {
  return (line) =>
    narrowed(terms, line.trim()).map(({ word, note }) => ({ line: word, label: word, note }));
}

const NAMED_BY = ['name', 'title', 'product', 'recipe', 'kind', 'supplier'];

function records(kind: Kind, lexicon: Lexicon): readonly Term[] {
  const terms = lexicon.records([kind]).map(({ id, raw }) => ({ word: id, note: noteOn(raw) }));
  const isDated = kind === 'pieces' || kind === 'firings' || kind === 'mixed';
  return isDated ? [...terms].reverse() : terms;
}

function noteOn(raw: Raw): string {
  if (!isMap(raw)) return '';
  const named = NAMED_BY.map((field) => raw[field]).find((value) => typeof value === 'string');
  return typeof named === 'string' ? named : '';
}
