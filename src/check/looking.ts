/** Runs the looks of rules: over a whole book, over the records of one file, or one look by itself. */
import {
  KINDS,
  type Book,
  type Day,
  type Entry,
  type Kind,
  type NamedBook,
  type Studio,
} from '../book.ts';
import { cached, cachedFor } from '../once.ts';
import type { Finding } from '../problem.ts';
import { type RuleFinding } from './finding.ts';
import { grouped } from '../grouping.ts';
import { meantIn } from './meant.ts';
import { figureColumns } from './doubts/columns.ts';
import { doubtsIn } from './doubts/experience.ts';
import { NO_FIGURES, gatheredWithWords, gatherer, type Figures } from './doubts/gather.ts';
import { withUnsettled } from './unsettled.ts';
import { askedBook, reachedBook, type AskedIds } from './reach.ts';
import type {
  DayLook,
  EachLook,
  EachScene,
  FileLook,
  LookedAt,
  OverLook,
  Rule,
  RuleLook,
  Short,
  ShortLook,
  Unsound,
} from './rule.ts';

/** A book, and the rules that it is held against. */
interface Judging {
  readonly rules: readonly Rule[];
  readonly book: Book;
  readonly unsound: Unsound;
}

/** One look, and the rule that it is part of. */
export interface LookOf<L extends RuleLook = RuleLook> {
  readonly rule: Rule;
  readonly look: L;
}

/** All looks of rules that have one reach, in the order of the rules. */
export function looksThat<R extends RuleLook['reach']>(
  reach: R,
  rules: readonly Rule[],
): readonly LookOf<Extract<RuleLook, { readonly reach: R }>>[] {
  const isMeant = (look: RuleLook): look is Extract<RuleLook, { readonly reach: R }> =>
    look.reach === reach;
  return rules.flatMap((rule) => rule.looks.filter(isMeant).map((look) => ({ rule, look })));
}

/** What was found, and the records that it rests on besides those that were looked at. */
export interface FoundByLook {
  readonly findings: readonly Finding[];
  readonly asked: AskedIds;
}

/**
 * What a look over some kinds finds. It holds as long as no record that concerns the look comes, goes or
 * changes, nor one that it asked for, nor the settings, and as what the book leaves out is the same.
 */
export function foundOver(
  { rule, look }: LookOf<OverLook>,
  { book, unsound }: Omit<Judging, 'rules'>,
): FoundByLook {
  const { book: named, asked } = askedBook(book);
  const reached = reachedBook(book, { reached: look.over, day: '', named });
  return { findings: toldBy(rule, look.find(reached as never, unsound)), asked: asked() };
}

/** What looks at the records of one file together find. */
function foundInFile(
  rules: readonly Rule[],
  kind: Kind,
  records: readonly Entry[],
): readonly Finding[] {
  return (fileLooksOf(rules).get(kind) ?? []).flatMap((each) => saidInFile(each, records));
}

/** What such a look finds in all files. */
function foundInFiles({ rule, look }: LookOf<FileLook>, book: Book): readonly Finding[] {
  const files = look.of.flatMap((kind) => [
    ...grouped<string, Entry>(book[kind].values(), ({ file }) => file).values(),
  ]);
  return files.flatMap((records) => saidInFile({ rule, look }, records));
}

function saidInFile(
  { rule, look }: LookOf<FileLook>,
  records: readonly Entry[],
): readonly Finding[] {
  const found: RuleFinding[] = [];
  look.find(records as never, (finding) => found.push(finding));
  return toldBy(rule, found);
}

/** What a look at the shortfalls finds. */
export function foundShort(
  { rule, look }: LookOf<ShortLook>,
  { book, short }: { readonly book: NamedBook; readonly short: Short },
): readonly Finding[] {
  return toldBy(rule, look.find(short, book));
}

/** What a look that depends on the day finds on it. */
export function foundOnDay(
  { rule, look }: LookOf<DayLook>,
  { book, unsound, day }: Omit<Judging, 'rules'> & { readonly day: Day },
): readonly Finding[] {
  const reached = reachedBook(book, { reached: look.over, day, named: book });
  return toldBy(rule, look.find(reached as never, { day, unsound }));
}

/** The records of one file, or the settings. */
interface RecordsOfFile {
  readonly kind: LookedAt;
  readonly records: Iterable<Entry | Studio>;
}

/**
 * What is wrong with the records of one file, each by itself. It holds as long as these are the same, and
 * those asked for, and the settings.
 */
interface FoundInFile extends FoundByLook {
  /** False where it rests on more than that: on all ids, or on what the book leaves out. */
  readonly isWhole: boolean;
  /** The figures that are held against those of other files. */
  readonly figures: Figures;
}

/** Looks at the records of files, file by file, and notes what they rest on. */
export function recordsLooker({
  rules,
  book,
  unsound,
}: Judging): (file: RecordsOfFile) => FoundInFile {
  const looks = eachLooksOf(rules);
  const meant = meantIn(book);
  const { book: noted, asked } = askedBook(book);
  const gather = gatherer({ rules, book: noted });
  return (file) => {
    const findings: Finding[] = [];
    let isWhole = true;
    const beyond = <T>(answer: T): T => {
      isWhole = false;
      return answer;
    };
    const look = looker({
      book: noted,
      say: ({ rule }, finding) => findings.push(...toldBy(rule, [finding])),
      meant: (mistyped) => beyond(meant(mistyped)),
      unsound: () => beyond(unsound),
    });
    const { kind } = file;
    const records = [...file.records];
    look({ kind, records }, looks.get(kind) ?? []);
    if (kind !== 'studio') findings.push(...foundInFile(rules, kind, records as Entry[]));
    const figures = kind === 'studio' ? NO_FIGURES : gather(kind, records as Entry[]);
    return { findings: inOrderOf(rules, findings), asked: asked(), isWhole, figures };
  };
}

/** Every finding of all rules on a day, rule by rule and look by look. */
export function foundIn(
  { rules, book, unsound }: Judging,
  { day, shortBeside }: { readonly day: Day; readonly shortBeside: (unsound: Unsound) => Short },
): readonly Finding[] {
  const ofEach = foundOnEach({ rules, book, unsound });
  const found = new Map<RuleLook, readonly Finding[]>();
  for (const { rule, look } of looksThat('each', rules))
    found.set(look, toldBy(rule, ofEach.get(look) ?? []));
  for (const { rule, look } of looksThat('file', rules))
    found.set(look, foundInFiles({ rule, look }, book));
  for (const { rule, look } of looksThat('over', rules))
    found.set(look, foundOver({ rule, look }, { book, unsound }).findings);
  for (const { rule, look } of looksThat('day', rules))
    found.set(look, foundOnDay({ rule, look }, { book, unsound, day }));
  const doubted = withUnsettled(unsound, { rules, book, findings: [...found.values()].flat() });
  const short = shortBeside(doubted);
  for (const { rule, look } of looksThat('short', rules))
    found.set(look, foundShort({ rule, look }, { book, short }));
  const all = rules.flatMap((rule) => rule.looks.flatMap((look) => found.get(look) ?? []));
  return inOrderOf(rules, [...all, ...foundUnusual(rules, book)]);
}

/** What is far from the usual in a whole book. */
function foundUnusual(rules: readonly Rule[], book: Book): readonly Finding[] {
  const gather = gatherer({ rules, book });
  const kinds = KINDS.map((kind) => ({ kind, records: [...book[kind].values()] }));
  const figures = kinds.map(({ kind, records }) => gather(kind, records));
  const inWords = cached((at: number) => {
    const { kind, records } = kinds[at] ?? { kind: 'materials', records: [] };
    return gatheredWithWords({ rules, book }, kind, records);
  });
  return doubtsIn({ columns: figureColumns(figures), inWords }, rules);
}

/** The findings rule by rule, as a look at the whole book has them. */
export function inOrderOf(
  rules: readonly Rule[],
  findings: readonly Finding[],
): readonly Finding[] {
  if (findings.length < 2) return findings;
  const places = new Map(rules.map(({ name }, at) => [name, at]));
  const placeOf = ({ rule }: Finding): number => places.get(rule) ?? -1;
  return findings.toSorted((one, other) => placeOf(one) - placeOf(other));
}

/** Goes once through the records of each kind, and asks all looks at one record about each. */
function foundOnEach({ rules, book, unsound }: Judging): ReadonlyMap<EachLook, RuleFinding[]> {
  const found = new Map<EachLook, RuleFinding[]>();
  const look = looker({
    book,
    say: ({ look: by }, finding) => {
      const known = found.get(by);
      if (known) known.push(finding);
      else found.set(by, [finding]);
    },
    meant: meantIn(book),
    unsound: () => unsound,
  });
  for (const [kind, looks] of eachLooksOf(rules))
    look({ kind, records: kind === 'studio' ? [book.studio] : book[kind].values() }, looks);
  return found;
}

/** Kind → the looks at one record of it, in the order of the rules. */
const eachLooksOf = cachedFor((rules: readonly Rule[]) => byKind(looksThat('each', rules)));

/** Kind → the looks at the records of one file of it. */
const fileLooksOf = cachedFor((rules: readonly Rule[]) => byKind(looksThat('file', rules)));

function byKind<L extends EachLook | FileLook>(
  looks: readonly LookOf<L>[],
): ReadonlyMap<LookedAt, readonly LookOf<L>[]> {
  const kinds = ['studio', ...KINDS] as const;
  const isOf = ({ of }: { readonly of: readonly LookedAt[] }, kind: LookedAt): boolean =>
    of.includes(kind);
  return new Map(kinds.map((kind) => [kind, looks.filter(({ look }) => isOf(look, kind))]));
}

interface Looking {
  readonly book: NamedBook;
  readonly say: (by: LookOf<EachLook>, finding: RuleFinding) => void;
  readonly meant: EachScene['meant'];
  readonly unsound: () => Unsound;
}

type LooksAtFile = (file: RecordsOfFile, looks: readonly LookOf<EachLook>[]) => void;

function looker({ book, say, meant, unsound }: Looking): LooksAtFile {
  let by: LookOf<EachLook> | undefined;
  const scene: EachScene = {
    book,
    say: (finding) => {
      if (by) say(by, finding);
    },
    meant,
    get unsound() {
      return unsound();
    },
  };
  return ({ kind, records }, looks) => {
    for (const record of records)
      for (const each of looks) {
        by = each;
        each.look.find(record as never, scene, kind as never);
      }
  };
}

function toldBy({ name, severity }: Rule, found: readonly RuleFinding[]): readonly Finding[] {
  return found.map((finding) => ({ rule: name, severity, ...finding }));
}
