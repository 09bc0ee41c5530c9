/** A studio on disk in the hands of somebody: records and files come, go and change, by hand and by commands. */
import { mkdirSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Kind } from '../../../src/book.ts';
import { addRecords as add } from '../../../src/commands/records/add.ts';
import { remove } from '../../../src/commands/records/remove.ts';
import { isRefusal } from '../../../src/commands/world.ts';
import { addDays, daysBetween } from '../../../src/number/date.ts';
import { NO_MEMORY } from '../../../src/read/kept/memory.ts';
import type { RawFile, RawMap } from '../../../src/read/raw.ts';
import { readStudio } from '../../../src/read/read.ts';
import { emitRecord } from '../../../src/write/emit.ts';
import { run } from '../../helpers/command-world.ts';
import type { RandomSource } from '../../helpers/random-source.js';
import { filesIn } from '../../helpers/temp-studio.ts';
import { FIRST_DAY } from './days.ts';
import { edited } from './edited.ts';
import { editOf, fieldsOf } from './field-edits.ts';

/** Path from the studio's root → text. */
export type Texts = Readonly<Record<string, string>>;

/** A studio on disk, and the states that it had. */
export interface History {
  readonly folder: string;
  /** The last day on which something happens. */
  readonly until: string;
  readonly random: RandomSource;
  readonly states: Texts[];
}

/** Does something to the studio. */
export async function goOn(history: History): Promise<void> {
  const now = filesIn(history.folder);
  history.states.push(now);
  await history.random.pick(STEPS)(history, now);
}

type Step = (history: History, now: Texts) => Promise<void> | void;

const edit: Step = async ({ folder, random }, now) => {
  const files = await rawFiles(folder);
  put(folder, now, { ...now, ...changedTexts(files, edited(files, random)) });
};

/** As a careful person edits: whatever it is, the record keeps to its schema. */
const editSoundly: Step = async ({ folder, random, until }, now) => {
  const files = await rawFiles(folder);
  const idsOf = (kind: Kind): string[] =>
    kindIn(files, kind).flatMap(({ root }) => Object.keys(root));
  const day = (): string => addDays(FIRST_DAY, random.int(0, daysBetween(FIRST_DAY, until)));
  const kind = random.pick([...new Set(files.map((file) => file.kind))]);
  const own = kindIn(files, kind);
  const records: Record<string, RawMap> = {};
  for (const { root } of own) Object.assign(records, kind === 'studio' ? { studio: root } : root);
  const values = { random, day, ids: idsOf };
  const done = editOf({ kind, records, values }, random.pick(fieldsOf(kind)));
  if (!done) return;
  const after = own.map((file) => withRecord(file, done.id, done.after));
  put(folder, now, { ...now, ...changedTexts(own, after) });
};

const BAD = '\n  - : [';

const spoil: Step = ({ folder, random }, now) => {
  const file = random.pick(Object.keys(now));
  put(folder, now, { ...now, [file]: `${now[file] ?? ''}${BAD}` });
};

const makeGood: Step = ({ folder }, now) => {
  const good = Object.entries(now).map(([file, text]) => [file, text.replaceAll(BAD, '')]);
  put(folder, now, Object.fromEntries(good) as Texts);
};

const rename: Step = ({ folder, random, states }, now) => {
  const file = random.pick(recordFiles(now));
  const { [file]: text = '', ...others } = now;
  const kind = file.replace(/[/.].*$/, '');
  put(folder, now, { ...others, [`${kind}/moved-${String(states.length)}.yaml`]: text });
};

const takeAway: Step = ({ folder, random }, now) => {
  const file = random.pick(recordFiles(now));
  put(folder, now, Object.fromEntries(Object.entries(now).filter(([each]) => each !== file)));
};

const putBack: Step = ({ folder, random, states }, now) => {
  put(folder, now, random.pick(states));
};

const addUsed: Step = async ({ folder, random, until }) => {
  const files = await rawFiles(folder);
  const materials = kindIn(files, 'materials').flatMap(({ root }) => Object.keys(root));
  if (materials.length === 0) return;
  const options = { input: false };
  const day = addDays(until, -random.pick([0, 0, 1, 40, 100]));
  const words = ['used', '--material', random.pick(materials), '--quantity', '1 kg', '--date', day];
  await run(add, folder, { words, options, today: until });
};

const removeOne: Step = async ({ folder, random, until }) => {
  const files = await rawFiles(folder);
  const ids = ['used', 'sales', 'spent', 'counted'].flatMap((kind) =>
    kindIn(files, kind as Kind).flatMap(({ root }) => Object.keys(root)),
  );
  if (ids.length === 0) return;
  await run(remove, folder, { words: [random.pick(ids)], options: {}, today: until });
};

const STEPS: readonly Step[] = [
  edit,
  edit,
  editSoundly,
  editSoundly,
  editSoundly,
  spoil,
  makeGood,
  rename,
  takeAway,
  putBack,
  putBack,
  addUsed,
  removeOne,
];

function recordFiles(texts: Texts): string[] {
  return Object.keys(texts).filter((file) => file !== 'studio.yaml');
}

function kindIn(files: readonly RawFile[], kind: Kind | 'studio'): RawFile[] {
  return files.filter((file) => file.kind === kind);
}

/** The records of a folder, with what the settings say. */
async function rawFiles(folder: string): Promise<readonly RawFile[]> {
  const reading = await readStudio(folder, { memory: NO_MEMORY });
  if (isRefusal(reading)) throw new Error(reading.refused);
  return reading.files;
}

function withRecord(file: RawFile, id: string, record: RawMap): RawFile {
  if (file.kind === 'studio') return { ...file, root: record };
  return file.root[id] === undefined ? file : { ...file, root: { ...file.root, [id]: record } };
}

/** The texts of the files that are others after an edit. */
function changedTexts(before: readonly RawFile[], after: readonly RawFile[]): Texts {
  const others = after.filter((file) => !before.some(({ root }) => root === file.root));
  return Object.fromEntries(others.map((file) => [file.file, textOf(file)]));
}

function textOf({ kind, root }: RawFile): string {
  if (kind === 'studio') return emitRecord('all', root).replace(/^(?:all:\n| {2})/gm, '');
  return Object.entries(root)
    .map(([id, record]) => emitRecord(id, record as RawMap))
    .join('\n');
}

let writes = 0;

/** Makes the files such, those that change each at a time of its own. */
function put(folder: string, before: Texts, after: Texts): void {
  for (const file of Object.keys(before)) if (after[file] === undefined) rmSync(join(folder, file));
  for (const [file, text] of Object.entries(after)) {
    if (text === before[file]) continue;
    const path = join(folder, file);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    writes += 1;
    const time = 1_700_000_000 + writes;
    utimesSync(path, time, time);
  }
}
