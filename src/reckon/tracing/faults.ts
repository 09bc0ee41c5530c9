/** Which load lines had a fault, held by what they have in common against all others. */
import type { Book, Cause, Firing, LoadLine, Lot } from '../../book.ts';
import { grouped } from '../../grouping.ts';
import { fisherExact, holmCorrected } from '../../number/exact-test.ts';
import { inForce } from '../../in-force.ts';

/** What lines may have in common. */
export type InCommon = 'mix' | 'bag' | 'clay lot' | 'firing' | 'shelf' | 'maker';

/** A lot in a firing: faulty or not, since one bad load makes all its pieces bad. */
interface FaultLine {
  readonly firing: Firing;
  readonly lot: Lot;
  readonly line: LoadLine;
  readonly isFaulty: boolean;
}

/** Some lines that have a thing in common, against all others of which that is known. */
export interface FaultGroup {
  readonly by: InCommon;
  readonly value: string;
  readonly lines: number;
  readonly faulty: number;
  readonly otherLines: number;
  readonly otherFaulty: number;
  /** Pieces that had the fault in those lines; never tested. */
  readonly pieces: number;
  readonly chance: number;
  /** After Holm's correction over all that was tried. */
  readonly corrected: number;
  /** Ids of the firings and lots of those lines. */
  readonly records: readonly string[];
}

/** Every group that was tried, the least likely by chance first. */
export function faultGroups(book: Book, fault: Cause, to: string): readonly FaultGroup[] {
  const lines = faultLinesOf(book, fault, to);
  const kinds = new Set(lines.filter(({ isFaulty }) => isFaulty).map(({ firing }) => firing.kind));
  const open = lines.filter(({ firing }) => kinds.has(firing.kind));
  const tried = IN_COMMON.flatMap((by) => groupsBy(book, open, { by, fault }));
  const corrected = holmCorrected(tried.map(({ chance }) => chance));
  return tried
    .map((group, at) => ({ ...group, corrected: corrected[at] ?? 1 }))
    .sort((a, b) => a.chance - b.chance);
}

const IN_COMMON: readonly InCommon[] = ['mix', 'bag', 'clay lot', 'firing', 'shelf', 'maker'];

/** Lines of lots whose outcome is known. */
function faultLinesOf(book: Book, fault: Cause, to: string): FaultLine[] {
  const firings = [...book.firings.values()].filter(({ date }) => date <= to);
  return firings.flatMap((firing) =>
    firing.load.flatMap((line) => {
      const lot = book.pieces.get(line.lot ?? '');
      const isOut = [line.first, line.second, line.lost].some((count) => count !== undefined);
      return lot && isOut ? [{ firing, lot, line, isFaulty: piecesWith(line, fault) > 0 }] : [];
    }),
  );
}

/** Pieces of a line with the fault. */
function piecesWith({ why, lostTo }: LoadLine, fault: Cause): number {
  return Math.max(why?.[fault] ?? 0, lostTo?.[fault] ?? 0);
}

type FaultsTried = Omit<FaultGroup, 'corrected'>;

function groupsBy(
  book: Book,
  all: readonly FaultLine[],
  { by, fault }: { by: InCommon; fault: Cause },
): FaultsTried[] {
  const known = all.map((line) => ({ line, values: new Set(VALUES[by](book, line)) }));
  const told = known.filter(({ values }) => values.size > 0);
  const pairs = told.flatMap(({ line, values }) => [...values].map((value) => ({ value, line })));
  const groups = [...grouped(pairs, ({ value }) => value)];
  return groups.flatMap(([value, some]) => {
    const lines = some.map(({ line }) => line);
    const others = told.filter(({ values }) => !values.has(value)).map(({ line }) => line);
    return others.length === 0 ? [] : [against({ by, value }, lines, { others, fault })];
  });
}

function against(
  named: Pick<FaultsTried, 'by' | 'value'>,
  lines: readonly FaultLine[],
  { others, fault }: { others: readonly FaultLine[]; fault: Cause },
): FaultsTried {
  const [faulty, otherFaulty] = [faultyIn(lines), faultyIn(others)];
  return {
    ...named,
    lines: lines.length,
    faulty,
    otherLines: others.length,
    otherFaulty,
    pieces: lines.reduce((sum, { line }) => sum + piecesWith(line, fault), 0),
    chance: fisherExact(
      { faulty, sound: lines.length - faulty },
      { faulty: otherFaulty, sound: others.length - otherFaulty },
    ),
    records: [...new Set(lines.flatMap(({ firing, lot }) => [firing.id, lot.id]))],
  };
}

function faultyIn(lines: readonly FaultLine[]): number {
  return lines.filter(({ isFaulty }) => isFaulty).length;
}

/** What a record says of a line; nothing where none does: what is only possible blames nobody. */
const VALUES: Readonly<Record<InCommon, (book: Book, line: FaultLine) => readonly string[]>> = {
  mix: (_, { lot }) => Object.values(lot.mixes ?? {}),
  bag: (book, { lot }) =>
    Object.values(lot.mixes ?? {}).flatMap((mix) =>
      Object.entries(book.mixed.get(mix)?.lots ?? {}).map((bag) => bag.join(' ')),
    ),
  'clay lot': (book, { lot }) => {
    const clay =
      lot.clay?.material ?? inForce(book.products.get(lot.product), lot.date)?.clay?.material;
    return lot.clay?.lot === undefined ? [] : [`${clay ?? ''} ${lot.clay.lot}`.trim()];
  },
  firing: (_, { firing }) => [firing.id],
  shelf: (_, { firing, line }) =>
    line.shelf === undefined ? [] : [`${firing.kiln} ${line.shelf}`],
  maker: (_, { lot }) => (lot.maker === undefined ? [] : [lot.maker]),
};
