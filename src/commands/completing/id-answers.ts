/** The ids and fields of a studio that a command line can go on with. */
import { FIELDS, type FieldSpec } from '../../../schema/generated/fields.js';
import { DEFINITION_KINDS, KINDS, type Kind } from '../../book.ts';
import { NOUN } from '../../check/finding.ts';
import { idsIn } from '../../read/kept/ids.ts';
import { isMap, textUnder, type Raw, type RawFile } from '../../read/raw.ts';
import { filesOfKinds, isId, type CompletionAnswer, type KnownStudio } from './answers.ts';
import { PAPER_OF, isPaperKind } from '../paper-command.ts';
import type { OptionSpec } from '../spec.ts';
import type { TypedLine } from './typed-line.ts';

/**
 * The ids of some kinds that begin so: definitions in the order of their files, then what happened,
 * latest first.
 */
export async function idAnswers(
  kinds: readonly Kind[],
  start: string,
  studio: KnownStudio,
): Promise<readonly CompletionAnswer[]> {
  const begins = (id: string): boolean => id.startsWith(start);
  const things = await recordsWith(studio, kinds.filter(isDefinition), begins);
  const events = await eventsWith(studio, kinds, start);
  return [...things, ...events].map(({ id, kind, about }) => ({
    word: id,
    about: kinds.length > 1 && about !== undefined ? `${NOUN[kind]} ${about}` : (about ?? ''),
  }));
}

/** A record by its id; of many, nothing more is known. */
interface ById {
  readonly id: string;
  readonly kind: Kind;
  readonly about?: string;
}

/**
 * Of more than these a shell is told only how they begin, so nothing is said of each any more, and the
 * order of the files, backwards, stands for that of the days.
 */
const TOO_MANY_TO_TELL = 1000;

async function eventsWith(
  { folder, store }: KnownStudio,
  all: readonly Kind[],
  start: string,
): Promise<readonly ById[]> {
  const kinds = all.filter((kind) => !isDefinition(kind));
  if (folder === undefined || kinds.length === 0) return [];
  const { ids, contentOf } = idsIn(folder, { store, kinds, start });
  const fitting = ids.filter(({ id }) => isId(id));
  if (fitting.length > TOO_MANY_TO_TELL) return fitting.reverse();
  const found: ToldRecord[] = [];
  // Only the files that they are in are read.
  for (const [file, kind] of new Map(fitting.map((each) => [each.file, each.kind])))
    found.push(...recordsIn({ kind, root: await contentOf(file) }, (id) => id.startsWith(start)));
  return found.sort(byDayBackwards);
}

/** What a paper of the kind that the line names may be of: one record, but of labels any number. */
export function paperAnswers(
  studio: KnownStudio,
  { words: [paper = '', ...named], current }: TypedLine,
): Promise<readonly CompletionAnswer[]> {
  const isMore = named.length > 0 && paper !== 'labels';
  const kinds: readonly Kind[] = isPaperKind(paper) && !isMore ? [PAPER_OF[paper]] : [];
  return idAnswers(paper === 'labels' ? [...kinds, 'consigned'] : kinds, current, studio);
}

/** `FIELD=` for the fields of the record that the line names; behind the `=`, what may stand there. */
export async function fieldAnswers(
  studio: KnownStudio,
  { words, current }: TypedLine,
): Promise<readonly CompletionAnswer[]> {
  const [record] = await recordsWith(studio, KINDS, (id) => id === words[0]);
  if (!record) return [];
  const { fields } = FIELDS[record.kind];
  const [name = '', value] = current.split('=');
  if (value === undefined)
    return Object.entries(fields).map(([field, { title }]) => ({
      word: `${field}=`,
      about: title,
    }));
  const spec = fields[name];
  const { choices = [], offers = [] } = spec ? standingIn(spec) : {};
  const ids = typeof offers === 'string' ? [] : await idAnswers(offers, value, studio);
  return [...choices.map((word) => ({ word, about: '' })), ...ids].map(({ word, about }) => ({
    word: `${name}=${word}`,
    about,
  }));
}

/** What may stand in a field, where it is one of a few words or the id of a record. */
export function standingIn(spec: FieldSpec): Pick<OptionSpec, 'choices' | 'offers'> {
  const one = spec.type === 'list' ? spec.of : spec;
  const choices = 'words' in one ? { choices: one.words ?? [] } : {};
  return one.type === 'reference' ? { ...choices, offers: one.to } : choices;
}

interface ToldRecord extends ById {
  readonly day: string;
  readonly about: string;
}

async function recordsWith(
  studio: KnownStudio,
  kinds: readonly Kind[],
  isWanted: (id: string) => boolean,
): Promise<ToldRecord[]> {
  const found: ToldRecord[] = [];
  for await (const file of filesOfKinds(studio, kinds)) found.push(...recordsIn(file, isWanted));
  return found;
}

function recordsIn(
  { kind, root }: Pick<RawFile, 'kind' | 'root'>,
  isWanted: (id: string) => boolean,
): ToldRecord[] {
  if (kind === 'studio') return [];
  const ids = Object.keys(root).filter((id) => isWanted(id) && isId(id));
  return ids.map((id) => {
    const raw = root[id] ?? '';
    return { id, kind, day: textUnder(raw, 'date'), about: aboutRecord(kind, raw) };
  });
}

function isDefinition(kind: Kind): boolean {
  return DEFINITION_KINDS.some((each) => each === kind);
}

function byDayBackwards(a: ToldRecord, b: ToldRecord): number {
  if (a.day !== b.day) return a.day < b.day ? 1 : -1;
  return a.id < b.id ? 1 : -1;
}

/** What tells one record of a kind from the next, beside its day. */
const TELLING: Readonly<Record<Kind, readonly string[]>> = {
  materials: ['name'],
  recipes: ['name'],
  products: ['name'],
  classes: ['name'],
  kilns: ['name'],
  tariffs: ['fuel', 'from'],
  channels: ['name'],
  bought: ['supplier'],
  reclaimed: ['material'],
  mixed: ['recipe'],
  pieces: ['product'],
  firings: ['kind', 'cone', 'kiln'],
  used: ['material', 'for'],
  counted: [],
  orders: ['buyer', 'due'],
  sales: ['channel', 'buyer'],
  advances: ['for', 'buyer'],
  consigned: ['channel'],
  fairs: ['name'],
  spent: ['for', 'to'],
  tests: ['kind', 'recipe'],
  filed: ['period', 'sheet'],
};

/** An answer stands on one line of a terminal. */
const LONGEST_ABOUT = 50;

function aboutRecord(kind: Kind, raw: Raw): string {
  const told = ['date', ...TELLING[kind]].map((field) => textUnder(raw, field));
  const words = told.filter((word) => word !== '').join(' ');
  return words.length > LONGEST_ABOUT ? `${words.slice(0, LONGEST_ABOUT - 1)}…` : words;
}

/** Firings with a load line whose outcome nobody has written down, the latest first. */
export async function inKilnAnswers(studio: KnownStudio): Promise<readonly CompletionAnswer[]> {
  const found: CompletionAnswer[] = [];
  for await (const { root } of filesOfKinds(studio, ['firings']))
    found.push(
      ...Object.entries(root)
        .filter(([id, raw]) => isId(id) && isInKiln(raw))
        .map(([word, raw]) => ({
          word,
          about: ['date', 'kind', 'kiln'].map((field) => textUnder(raw, field)).join(' '),
        })),
    );
  return found.sort((a, b) => (`${a.about} ${a.word}` < `${b.about} ${b.word}` ? 1 : -1));
}

function isInKiln(firing: Raw): boolean {
  const load = isMap(firing) ? firing['load'] : undefined;
  if (!Array.isArray(load)) return false;
  return (load as readonly Raw[]).some(
    (line) => isMap(line) && (line['first'] ?? line['second'] ?? line['lost']) === undefined,
  );
}
