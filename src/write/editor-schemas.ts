/** The schemas that an editor is given beside a studio: they offer the studio's own ids, and say in words what is wrong. */
import {
  FIELDS,
  PATTERNS,
  type FieldSpec,
  type RecordSpec,
} from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import type { PackageFiles } from '../read/package.ts';
import { SCHEMA_FOLDER } from './target.ts';

/** The schema of the studio's own ids, to which all others refer. */
export const IDS_FILE = `${SCHEMA_FOLDER}/ids.json`;

/** An id or a word, and what there is to say of it. */
export interface OfferedId {
  readonly id: string;
  readonly about: string;
}

/** The ids of each kind, and the spending categories of the studio's own. */
export type IdLists = Readonly<Partial<Record<Kind | 'categories', readonly OfferedId[]>>>;

/** What one field takes: ids of some kinds, and words beside them. */
interface TakenIds {
  readonly to: readonly Kind[];
  readonly words: readonly string[];
}

/** The schemas for a studio's folder, of those that came with the program. */
export function editorSchemas(schemas: PackageFiles): PackageFiles {
  return Object.fromEntries(
    Object.entries(schemas).map(([name, text]) => [
      name,
      `${JSON.stringify(forEditor(JSON.parse(text)), null, 2)}\n`,
    ]),
  );
}

// An editor that meets a word it does not know beside `$ref` shows the description of what is referred
// to, and not the field's own.
function forEditor(part: unknown): unknown {
  if (Array.isArray(part)) return part.map(forEditor);
  if (typeof part !== 'object' || part === null) return part;
  const { 'x-refers-to': to, 'x-words': words } = part as SchemaPart;
  const known = Object.entries(part).filter(([key]) => !key.startsWith('x-'));
  const inner = Object.fromEntries(known.map(([key, of]) => [key, forEditor(of)]));
  // Instead of an example the studio's own ids are offered.
  if (to ?? words)
    return { ...inner, examples: undefined, $ref: refTo({ to: to ?? [], words: words ?? [] }) };
  const isForm = typeof inner['pattern'] === 'string';
  return isForm ? { ...inner, errorMessage: inWords(part) } : inner;
}

interface SchemaPart {
  readonly 'x-refers-to'?: readonly Kind[];
  readonly 'x-words'?: readonly string[];
  readonly description?: string;
  readonly examples?: readonly unknown[];
}

/** What a value must be, instead of the regular expression that it must match. */
function inWords({ description = '', examples = [] }: SchemaPart): string {
  return `${description} For example: ${examples.map(asTyped).join(' or ')}`;
}

// A text that a reader may take for something else is shown in the quotes that it needs.
function asTyped(example: unknown): string {
  const text = String(example);
  const isText = typeof example === 'string' && /^[\d:.½-]*$/.test(text);
  return isText && !/^\d{4}-\d\d-\d\d$/.test(text) ? `"${text}"` : text;
}

function refTo(offer: TakenIds): string {
  return `ids.json#/$defs/${nameOf(offer)}`;
}

function nameOf({ to, words }: TakenIds): string {
  if (to.length === 0) return 'categories';
  return [...to, ...(words.length > 0 ? ['words'] : [])].join('-');
}

/** The text of the schema of ids. One that is not listed may be given too, so a list that is old only offers less. */
export function idsText(lists: IdLists): string {
  const defs = offers().map((offer) => [nameOf(offer), choices(idsFor(offer, lists))] as const);
  const whole = {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    $id: 'ids.json',
    title: 'Ids',
    description: 'The ids of this studio. Commands that write keep this file up to date.',
    $defs: Object.fromEntries(defs),
  };
  return `${JSON.stringify(whole, null, 1)}\n`;
}

function idsFor({ to, words }: TakenIds, lists: IdLists): readonly OfferedId[] {
  const own = (to.length === 0 ? (['categories'] as const) : to).flatMap(
    (kind) => lists[kind] ?? [],
  );
  return [...own, ...words.map((id) => ({ id, about: '' }))];
}

const NOT_AN_ID = 'An id is a letter, then letters, digits and hyphens. For example: mug';

interface Choice {
  readonly title?: string;
  readonly enum?: readonly [string];
  readonly enumDescriptions?: readonly [string];
}

// What is said here of an id is all that an editor shows beside the field's own words; each has a title of
// its own, for an editor that finds several alike takes them for the same.
function choices(ids: readonly OfferedId[]): object {
  const each = ids.map(({ id, about }): Choice => {
    const told = about === '' ? {} : { enumDescriptions: [about] as const };
    return { title: about || id, enum: [id], ...told };
  });
  return { type: 'string', pattern: PATTERNS['id'], errorMessage: NOT_AN_ID, anyOf: [...each, {}] };
}

/** The ids of one kind in a text that `idsText` made. */
export function idsInText(text: string, kind: Kind): readonly OfferedId[] {
  const { $defs } = JSON.parse(text) as { $defs: Record<string, { anyOf: readonly Choice[] }> };
  return ($defs[kind]?.anyOf ?? []).flatMap((choice) => {
    const id = choice.enum?.[0];
    return id === undefined ? [] : [{ id, about: choice.enumDescriptions?.[0] ?? '' }];
  });
}

/** The kinds that some field refers to. */
export function referredKinds(): ReadonlySet<Kind> {
  return new Set(offers().flatMap(({ to }) => to));
}

/** What the fields of all kinds take, each once. */
function offers(): readonly TakenIds[] {
  const all = Object.values(FIELDS).flatMap(offersIn);
  return [...new Map(all.map((offer) => [nameOf(offer), offer])).values()];
}

function offersIn(spec: FieldSpec | RecordSpec): readonly TakenIds[] {
  if (spec.type === 'record') return Object.values(spec.fields).flatMap(offersIn);
  if (spec.type === 'list') return offersIn(spec.of);
  if (spec.type === 'either') return [spec.record, spec.other].flatMap(offersIn);
  if (spec.type === 'map')
    return [...(spec.keysTo ? [{ to: spec.keysTo, words: [] }] : []), ...offersIn(spec.of)];
  if (spec.type === 'reference') return [{ to: spec.to, words: spec.words ?? [] }];
  return spec.type !== 'word' && spec.words ? [{ to: [], words: spec.words }] : [];
}
