/** `saggar show ID`: one record, where it is, what it came to, what names it, and how to change it. */
import { KINDS, type Kind } from '../../book.ts';
import { NOUN, withArticle } from '../../check/finding.ts';
import { referencesTo } from '../../entry/remove.ts';
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import { counted } from '../../in-words.ts';
import type { Place, Spot } from '../../problem.ts';
import { wholeText } from '../../read/disk.ts';
import { locate } from '../../read/place.ts';
import { textUnder } from '../../read/raw.ts';
import { flow } from '../../reckon/flow.ts';
import { jsonCells, jsonDocument } from '../../render/json.ts';
import { printedLayout, printedLines, together } from '../../render/printable.ts';
import { recordTable } from '../../report/record/figures.ts';
import type { Table } from '../../report/table.ts';
import { linesOfRecord } from '../../write/put-back.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { askedRecord } from './find-record.ts';
import { unknownId } from '../ids.ts';
import { inStudio } from './locked.ts';
import { saggarCommand, shellQuoted } from './undo.ts';
import { refuse, rendered } from '../reports/show.ts';
import type { OpenedFiles } from '../studio/open.ts';
import { EXIT, isRefusal, type Asked, type Refusal, type World } from '../world.ts';

type ShowOptions = OptionsOf<'show'>;

/** Shows one record of any kind. */
export const show: CommandOf<'show'> = (asked, world) =>
  inStudio({ asked, world }, async ({ opened }) => {
    const record = recordMeant(asked, opened);
    if (isRefusal(record)) return refuse(world, record);
    const known = await knownOf(record, opened);
    const text =
      asked.options.as === 'json' ? jsonOf(known, opened) : await textFor(known, asked, world);
    world.write(text);
    opened.save();
    return EXIT.fine;
  });

/** The record of an id, else the only one of that name. */
function recordMeant(asked: Pick<Asked, 'argument'>, opened: OpenedFiles): FoundRecord | Refusal {
  const { argument: word } = asked;
  const lexicon = lexiconOf(opened.reading.files);
  if (word === undefined || lexicon.find(word)) return askedRecord(asked, opened);
  const all = lexicon.records(KINDS);
  const small = word.trim().toLowerCase();
  const named = all.filter(({ raw }) => calledName(raw).toLowerCase() === small);
  const [only, ...others] = named;
  if (only && others.length === 0) return only;
  if (only)
    return {
      refused: `several records are called "${word}": ${named.map(({ id }) => id).join(', ')}`,
    };
  const names = all.map(({ raw }) => calledName(raw)).filter((name) => name !== '');
  return unknownId('record', word, [...lexicon.ids(KINDS), ...names]);
}

function calledName(raw: FoundRecord['raw']): string {
  return textUnder(raw, 'name') || textUnder(raw, 'title');
}

/** A record that names the one that is shown. */
interface RecordUse {
  readonly id: string;
  readonly kind: Kind;
  readonly place: Place;
}

/** Everything that is known of a record. */
interface KnownRecord {
  readonly record: FoundRecord;
  readonly line: number;
  readonly text: string;
  /** Absent where the record has errors, so that it counts for nothing. */
  readonly table: Table | undefined;
  readonly namedBy: readonly RecordUse[];
}

async function knownOf(record: FoundRecord, opened: OpenedFiles): Promise<KnownRecord> {
  const { id, kind, file } = record;
  const { book, asOf, reading, folder } = opened;
  const spots = referencesTo(reading.files, record);
  const [own, ...places] = await placesInTurn(folder, [{ file, path: [id], on: 'key' }, ...spots]);
  const isSound = book[kind].has(id);
  return {
    record,
    line: own?.line ?? 1,
    text: linesOfRecord(wholeText(folder, file) ?? '', id) ?? '',
    table: isSound ? recordTable(book, flow(book, asOf), { kind, id }) : undefined,
    namedBy: namings(spots, places, reading.files),
  };
}

/** The places of spots, in their order. */
async function placesInTurn(
  folder: string,
  spots: readonly Spot[],
): Promise<readonly (Place | undefined)[]> {
  const findings = spots.map((at, index) => {
    return { rule: 'in-use', severity: 'warning' as const, at, message: String(index), hint: '' };
  });
  const located = await locate(folder, findings);
  const byNumber = new Map(located.map(({ message, place }) => [Number(message), place]));
  return spots.map((_, index) => byNumber.get(index));
}

/** Each record that names it once, at the first place. */
function namings(
  spots: readonly Spot[],
  places: readonly (Place | undefined)[],
  files: OpenedFiles['reading']['files'],
): readonly RecordUse[] {
  const found = new Map<string, RecordUse>();
  spots.forEach(({ file, path: [id] }, at) => {
    const place = places[at];
    const kind = files.find((each) => each.file === file)?.kind;
    if (place && kind && kind !== 'studio' && !found.has(String(id)))
      found.set(String(id), { id: String(id), kind, place });
  });
  return [...found.values()];
}

function jsonOf(
  { record, line, text, table, namedBy }: KnownRecord,
  { book, asOf }: OpenedFiles,
): ReturnType<typeof printedLayout> {
  const { id, kind, file } = record;
  const { name, currency } = book.studio;
  const document = jsonDocument({
    ...{ report: 'record', studio: name, asOf, currency },
    ...{ id, kind, file, line, text },
    figures: table ? jsonCells(table) : null,
    namedBy: namedBy.map((naming) => ({
      ...{ id: naming.id, kind: naming.kind },
      ...{ file: naming.place.file, line: naming.place.line },
    })),
    commands: waysOf(record, namedBy, {}),
  });
  return printedLayout(document);
}

async function textFor(
  { record, line, text, table, namedBy }: KnownRecord,
  { options }: Asked<ShowOptions>,
  world: World,
): Promise<ReturnType<typeof printedLayout>> {
  const { id, kind, file } = record;
  const head = [`${id}, ${withArticle(NOUN[kind])}: ${file}:${line}`, ''];
  const figures =
    table && table.rows.length > 0 ? await rendered(table, { as: 'text' }, world) : undefined;
  const ways = Object.values(waysOf(record, namedBy, options));
  return together([
    printedLines(head),
    printedLines(text.replaceAll('\r\n', '\n').trimEnd().split('\n')),
    printedLines(['']),
    figures ?? printedLines([table ? 'It moves no money and no stock.' : HAS_ERRORS]),
    printedLines(['', ...namedLines(namedBy), '', ...ways]),
  ]);
}

const HAS_ERRORS = 'It has errors, so it counts for nothing yet. Run: saggar check';

/** So many are listed; a material may be named in a thousand. */
const MOST_NAMED_BY = 20;

function namedLines(namedBy: readonly RecordUse[]): readonly string[] {
  if (namedBy.length === 0) return ['No other record uses it.'];
  const left = namedBy.length - MOST_NAMED_BY;
  return [
    `Used by ${counted(namedBy.length, 'record')}:`,
    ...namedBy
      .slice(0, MOST_NAMED_BY)
      .map(({ id, kind, place }) => `  ${id} (${NOUN[kind]}) ${place.file}:${place.line}`),
    ...(left > 0 ? [`  and ${left} more`] : []),
  ];
}

/** How it is changed, and how it is taken out. */
function waysOf(
  { id, kind }: FoundRecord,
  namedBy: readonly RecordUse[],
  options: Pick<ShowOptions, 'studio'> | Record<string, never>,
): Readonly<Record<string, string>> {
  const command = (words: string): string => saggarCommand({ studio: options.studio }, words);
  const word = shellQuoted(id);
  const used = namedBy.length > 0 ? ' (once nothing uses it)' : '';
  return {
    change: `To change it: ${command(`amend ${word} FIELD=VALUE`)}`,
    ...(kind === 'recipes' ? { revise: `For a new version: ${command(`revise ${word}`)}` } : {}),
    remove: `To take it out: ${command(`remove ${word}`)}${used}`,
  };
}
