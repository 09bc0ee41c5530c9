/** What is wrong in a book, put together from what was found in an earlier state as far as that still holds. */
import { DEFINITION_KINDS, type Book, type Day, type Entry, type Kind } from '../book.ts';
import type { Finding } from '../problem.ts';
import { cached, cachedFor } from '../once.ts';
import { SETTINGS_FILE, kindOfPath } from '../read/kinds.ts';
import { countsFlow } from '../reckon/flow.ts';
import type { TakenFile } from './draft.ts';
import { figureColumns, figuresByFile, type FigureColumns } from './doubts/columns.ts';
import { doubtsIn, type Experience } from './doubts/experience.ts';
import { NO_FIGURES, gatheredWithWords, type Figures } from './doubts/gather.ts';
import { withUnsettled } from './unsettled.ts';
import {
  foundOnDay,
  foundOver,
  foundShort,
  inOrderOf,
  looksThat,
  recordsLooker,
  type FoundByLook,
  type LookOf,
} from './looking.ts';
import { concerns } from './reach.ts';
import { NOTHING_UNSOUND, type OverLook, type Rule } from './rule.ts';
import { shortIn } from './shortfalls.ts';
import type { TakenIn } from './taken.ts';

/** What was found in a state without faults, part by part, as data that can be kept. */
export interface FoundParts {
  /** A fingerprint of the settings. */
  readonly settings: string;
  readonly files: ReadonlyMap<string, PartOfFile>;
  /** By the rule's name and the place of the look in it. */
  readonly over: ReadonlyMap<string, PartFound>;
}

interface PartFound {
  readonly findings: readonly Finding[];
  /** The records that it rests on, each on a line with its kind. */
  readonly asked: string;
}

/** What was found in a file of that content; not whole where it rests on more than what was asked for. */
interface PartOfFile extends PartFound {
  readonly content: string;
  readonly isWhole: boolean;
  readonly figures: Figures;
}

/** An earlier state of a studio. */
export interface StateBefore {
  readonly parts: FoundParts;
  /** The records of a file as they were. */
  readonly typedIn: (file: string) => ReadonlyMap<string, Entry> | undefined;
}

/** Whether no id stands twice where none did before: only those that are new in their file can. */
export function isStillUnique(
  { parts, typedIn }: StateBefore,
  files: readonly TakenFile[],
): boolean {
  const fresh = new Set<string>();
  let count = 0;
  for (const { file, content, ids } of files) {
    if (parts.files.get(file)?.content === content) continue;
    const was = typedIn(file);
    const news = ids().filter((id) => !was?.has(id));
    for (const id of news) fresh.add(id.toLowerCase());
    count += news.length;
  }
  const isThere = (id: string): boolean => fresh.has(id.toLowerCase());
  if (count === 0) return true;
  return (
    count === files.reduce((all, { ids }) => all + ids().filter(isThere).length, 0) &&
    count === fresh.size
  );
}

/** A state that leaves nothing out, and the one before it, if any. */
interface Going {
  readonly rules: readonly Rule[];
  readonly taken: TakenIn;
  readonly book: Book;
  readonly day: Day;
  readonly before: StateBefore | undefined;
}

/** All that the rules find, with the parts of it. */
export function foundTogether(going: Going): {
  readonly findings: readonly Finding[];
  readonly parts: FoundParts;
} {
  const { rules, taken, book, day } = going;
  const judging = { rules, book, unsound: NOTHING_UNSOUND };
  const before = going.before?.parts.settings === taken.settings ? going.before : undefined;
  const touched = before && touchedSince(before, taken.draft.files);
  const lines = new Set(touched?.map(({ kind, record }) => recordLine(kind, record.id)));
  const old = before && touched ? { parts: before.parts, touched, lines } : undefined;
  const files = lookAtFiles(going, old);
  const over = new Map(
    looksThat('over', rules).map((each) => {
      const known = old && partOfLook(each, old, { book, day });
      return [lookName(each), known ?? partFound(foundOver(each, judging))] as const;
    }),
  );
  const found = [...files.values(), ...over.values()].flatMap(({ findings: each }) => each);
  const unsound = withUnsettled(NOTHING_UNSOUND, { rules, book, findings: found });
  const short = shortIn(countsFlow(book, day), { book, unsound });
  const findings = [
    ...found,
    ...looksThat('short', rules).flatMap((each) => foundShort(each, { book, short })),
    ...looksThat('day', rules).flatMap((each) => foundOnDay(each, { ...judging, day })),
    ...doubtsIn(experienceIn(going, files), rules),
  ];
  const parts = { settings: taken.settings, files, over };
  return { findings: inOrderOf(rules, findings), parts };
}

/** What was found before, and the records that are no longer as they were. */
interface Old {
  readonly parts: FoundParts;
  readonly touched: readonly Touched[];
  /** The same in lines. */
  readonly lines: ReadonlySet<string>;
}

/** A record that came, went or changed: as it was, or as it is. */
interface Touched {
  readonly kind: Kind;
  readonly record: Entry;
}

/** Undefined where nobody knows any more how a file was. */
function touchedSince(
  { parts, typedIn }: StateBefore,
  now: readonly TakenFile[],
): Touched[] | undefined {
  const files = new Map(now.map((file) => [file.file, file]));
  const changed = now.filter(({ file, content }) => parts.files.get(file)?.content !== content);
  const gone = [...parts.files.keys()].filter((file) => !files.has(file) && file !== SETTINGS_FILE);
  const touched: Touched[] = [];
  for (const file of [...changed.map((each) => each.file), ...gone]) {
    // A record that is only typed so far is in a file that nothing tells the kind of once it is gone.
    const kind = files.get(file)?.kind ?? kindOfPath(file);
    const was = parts.files.has(file) ? typedIn(file) : NO_RECORDS;
    if (!kind || !was) return undefined;
    touched.push(...touchedOf(kind, was, files.get(file)?.typed() ?? NO_RECORDS));
  }
  return touched;
}

const NO_RECORDS: ReadonlyMap<string, Entry> = new Map();

function touchedOf(
  kind: Kind,
  was: ReadonlyMap<string, Entry>,
  is: ReadonlyMap<string, Entry>,
): Touched[] {
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((id) => {
    const sides = [was.get(id), is.get(id)].filter((record) => record !== undefined);
    const [one, other] = sides.map((record) => JSON.stringify(record));
    return one === other ? [] : sides.map((record) => ({ kind, record }));
  });
}

function lookAtFiles({ rules, taken, book }: Going, old: Old | undefined): FoundParts['files'] {
  const lookAt = recordsLooker({ rules, book, unsound: NOTHING_UNSOUND });
  const files = new Map<string, PartOfFile>();
  const settings = { kind: 'studio' as const, records: [book.studio] };
  files.set(book.studio.file, { ...partFound(lookAt(settings)), content: taken.settings });
  for (const { file, kind, content = '', typed } of taken.draft.files) {
    const known = old?.parts.files.get(file);
    const isSame = known?.isWhole && known.content === content && content !== '';
    const stays = isSame && old && !isAnyTouched(known, old);
    const look = (): PartOfFile => ({
      ...partFound(lookAt({ kind, records: typed().values() })),
      content,
    });
    files.set(file, stays ? known : look());
  }
  return files;
}

/** The figures of all files; of those of which something is to be said the words are made. */
function experienceIn({ rules, taken, book }: Going, files: FoundParts['files']): Experience {
  const paths = [...files.keys()];
  return {
    columns: figuresTogether(files),
    inWords: cached((at) => {
      const file = taken.draft.files.find((each) => each.file === paths[at]);
      const records = file ? [...file.typed().values()] : [];
      return file ? gatheredWithWords({ rules, book }, file.kind, records) : [];
    }),
  };
}

const figuresTogether = cachedFor((files: FoundParts['files']) =>
  figureColumns(Array.from(files.values(), ({ figures }) => figures)),
);

function partFound<T extends FoundByLook>({
  asked,
  ...found
}: T): Omit<T, 'asked'> & Pick<PartFound, 'asked'> {
  const lines = [...asked].flatMap(([kind, ids]) => Array.from(ids, (id) => recordLine(kind, id)));
  return { ...found, asked: lines.join('\n') };
}

function recordLine(kind: Kind, id: string): string {
  return `${kind} ${id}`;
}

function isAnyTouched({ asked }: PartFound, { lines }: Old): boolean {
  return asked !== '' && asked.split('\n').some((line) => lines.has(line));
}

/** What a look found before, where no record that changed concerns it. */
function partOfLook(
  each: LookOf<OverLook>,
  old: Old,
  { book, day }: Pick<Going, 'book' | 'day'>,
): PartFound | undefined {
  const { parts, touched } = old;
  const known = parts.over.get(lookName(each));
  const isConcerned = touched.some(
    ({ kind, record }) =>
      // By what else a record concerns a look is told by definitions: where they change, all may.
      DEFINING.has(kind) || concerns(each.look.over, { kind, record, book, day }),
  );
  return known && !isConcerned && !isAnyTouched(known, old) ? known : undefined;
}

const DEFINING: ReadonlySet<string> = new Set(DEFINITION_KINDS);

function lookName({ rule, look }: LookOf): string {
  return `${rule.name} ${rule.looks.indexOf(look)}`;
}

/** The parts as data. */
export interface KeptParts extends Omit<FoundParts, 'files'> {
  /** Of each file its path, content, whether it is whole, and what was asked for. */
  readonly texts: readonly string[];
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
  readonly figures: FigureColumns;
}

const TEXTS_A_PART = 4;
const WHOLE = 'whole';

/** Parts to be kept. */
export function keptParts({ files, ...others }: FoundParts): KeptParts {
  const texts: string[] = [];
  const findings = new Map<string, readonly Finding[]>();
  for (const [file, part] of files) {
    texts.push(file, part.content, part.isWhole ? WHOLE : '', part.asked);
    if (part.findings.length > 0) findings.set(file, part.findings);
  }
  return { ...others, texts, findings, figures: figuresTogether(files) };
}

/** The parts as they were. */
export function partsKept({ texts, findings, figures: kept, ...others }: KeptParts): FoundParts {
  const files = new Map<string, PartOfFile>();
  const figures = figuresByFile(kept);
  for (let at = 0; at < texts.length; at += TEXTS_A_PART) {
    const [file = '', content = '', whole, asked = ''] = texts.slice(at, at + TEXTS_A_PART);
    const isWhole = whole === WHOLE;
    const part = { content, isWhole, asked, findings: findings.get(file) ?? [] };
    files.set(file, { ...part, figures: figures[at / TEXTS_A_PART] ?? NO_FIGURES });
  }
  return { ...others, files };
}
