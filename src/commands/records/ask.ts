/** Fills in an entry at a terminal, and keeps back what is said until it is over. */
import { begin, stepBack, change, type QuestionState } from '../../entry/questions/asking.ts';
import { changeables, choosing, decisionOf, deciding } from '../../entry/questions/deciding.ts';
import { keptPreview, type FieldProblem, type Preview } from '../../entry/questions/preview.ts';
import type { Answer, Script } from '../../entry/questions/question.ts';
import { printed, type Printable } from '../../render/printable.ts';
import { plainAsker } from './ask-plainly.ts';
import { screenAsker } from './ask-on-screen.ts';
import type { Agreed } from './change.ts';
import type { EntryAsker, EntryScene } from './entry-scene.ts';
import { lateLock } from './locked.ts';
import { EXIT, type World } from '../world.ts';

/** What is filled in, and what is done with the answers. */
interface Errand {
  /** What it is about: `New sale`. */
  readonly title: string;
  /** The studio's folder. */
  readonly folder: string;
  /** Whether it is asked in plain lines. */
  readonly inLines: boolean;
  readonly script: Script;
  readonly preview: Preview;
  /**
   * Opens the studio, looks at what the answers say, and writes it if `agreed` says so when it is
   * asked: that takes the studio's lock.
   */
  readonly carryOut: (answers: readonly Answer[], world: World, agreed: Agreed) => Promise<number>;
}

/** How an entry ended: its status, and what is left to say. */
interface Ended {
  readonly status: number;
  readonly said: readonly KeptBack[];
}

interface KeptBack {
  readonly to: 'write' | 'complain';
  readonly text: Printable;
  readonly about?: 'change' | 'words' | undefined;
}

const DISCARDED: Ended = {
  status: EXIT.interrupted,
  said: [{ to: 'complain', text: printed`Discarded. Nothing was saved.\n` }],
};

/** Whether the entry is to be in plain lines: asked for, or the only way that the terminal has. */
export function wantsLines({ plain }: { readonly plain?: unknown }, world: World): boolean {
  return plain === true || !world.openScreen;
}

/**
 * Fills everything in, shows what comes of it, and has it saved if that is what is decided. What is
 * refused leads back to the fields. Discarded, nothing is left but one line that says so.
 */
export async function runErrand(world: World, errand: Errand): Promise<number> {
  const asker = await askerFor(world, errand);
  if (!asker) return EXIT.cannotRun;
  let ended: Ended = { status: EXIT.cannotRun, said: [] };
  try {
    const preview = keptPreview(errand.preview);
    ended = await fillIn({ world, asker, errand: { ...errand, preview } });
    return ended.status;
  } finally {
    asker.close();
    for (const { to, text, about } of ended.said) world[to](text, about);
  }
}

async function askerFor(world: World, errand: Errand): Promise<EntryAsker | undefined> {
  if (!errand.inLines && world.openScreen) return screenAsker(await world.openScreen(), world);
  return world.openLines && plainAsker(await world.openLines());
}

/** Where an entry is filled in. */
interface AtEntry {
  readonly world: World;
  readonly asker: EntryAsker;
  readonly errand: Errand;
}

async function fillIn(at: AtEntry): Promise<Ended> {
  let asking = begin(at.errand.script);
  for (;;) {
    asking = await at.asker.ask(asking, sceneOf(at));
    if (asking.end) return DISCARDED;
    const next = await afterAnswers(at, asking);
    if ('status' in next) return next;
    asking = next;
  }
}

/** What an entry shows; without answers of its own, those of the state. */
function sceneOf({ errand }: AtEntry, answers?: readonly Answer[]): EntryScene {
  const { title, preview } = errand;
  return { title, preview, answers, notes: [], marks: () => undefined };
}

/** What comes once all is answered: the end, or a field that is opened again. */
async function afterAnswers(at: AtEntry, asking: QuestionState): Promise<Ended | QuestionState> {
  const { problems } = at.errand.preview.outlook(asking.answers);
  if (problems.length > 0) return fieldToChange(at, asking, { problems, notes: [] });
  let notes: readonly string[] = [];
  let tried = await tryOut(at, asking, notes);
  while ('moved' in tried) tried = await tryOut(at, asking, (notes = tried.moved));
  const { decision, status, said } = tried;
  if (decision === 'discard') return DISCARDED;
  if (decision === 'back') return stepBack(asking);
  if (decision === 'change') return fieldToChange(at, asking, { problems: [], notes: [] });
  if (decision === undefined && status !== EXIT.fine)
    return fieldToChange(at, asking, { problems: [], notes: [...notes, ...complaints(said)] });
  return { status, said };
}

/** What was complained of, without the record that is given back with it. */
function complaints(said: readonly KeptBack[]): readonly string[] {
  const texts = said.filter(({ to }) => to === 'complain').map(({ text }) => text);
  const lines = texts.join('').trimEnd().split('\n');
  const again = lines.findIndex((line) => line.startsWith('# '));
  return (again < 0 ? lines : lines.slice(0, again)).filter((line) => line !== '');
}

interface RefusedEntry {
  readonly problems: readonly FieldProblem[];
  readonly notes: readonly string[];
}

/** Has a field chosen, and opens it. */
async function fieldToChange(
  at: AtEntry,
  asking: QuestionState,
  { problems, notes }: RefusedEntry,
): Promise<Ended | QuestionState> {
  const all = changeables(asking, problems);
  const scene = {
    ...sceneOf(at, asking.answers),
    notes,
    marks: (line: string) => find(line)?.path,
  };
  const find = (line: string | undefined): (typeof all)[number] | undefined =>
    all.find((each) => each.line === line);
  const chosen = await at.asker.ask(choosing(all, problems), scene);
  if (chosen.end === 'cancelled') return DISCARDED;
  const field = find(chosen.answers[0]?.text);
  return field ? change(asking, field.index) : asking;
}

/** How a command went that was run on answers; the decision is absent where it came to none. */
interface Tried extends Ended {
  readonly decision?: EndOfEntry;
}

type EndOfEntry = 'save' | 'change' | 'discard' | 'back';

/** That somebody else has written meanwhile, so that it has to be looked at again; what there is to say of it. */
interface StudioMoved {
  readonly moved: readonly string[];
}

const LOOK_AGAIN = 'The studio has changed since you were shown this. This is how it looks now.';

/**
 * Tries the answers on the studio as it is. Nothing is locked while somebody thinks about it; once it
 * is to be saved, the studio is, and where it is not as it was then, nothing is written.
 */
async function tryOut(
  at: AtEntry,
  { answers }: QuestionState,
  notes: readonly string[],
): Promise<Tried | StudioMoved> {
  const said: KeptBack[] = [];
  const lock = lateLock(at.errand.folder, speakingTo(at.world, said));
  const end: { decision?: EndOfEntry; moved?: boolean } = {};
  const agreed: Agreed = async ({ effect, problems }) => {
    const odd = problems.map(({ message, hint }) => `! ${message}; ${hint}`);
    const scene = { ...sceneOf(at, answers), effects: effect, notes: [...notes, ...odd] };
    end.decision = await decided(at, scene);
    if (at.asker.keeps) said.length = 0;
    if (end.decision !== 'save') return false;
    if (await lock.take()) return true;
    end.moved = true;
    return false;
  };
  const status = await at.errand.carryOut(answers, lock.world, agreed).finally(lock.release);
  if (end.moved) return { moved: [LOOK_AGAIN] };
  return { status, said, ...(end.decision ? { decision: end.decision } : {}) };
}

function speakingTo(world: World, said: KeptBack[]): World {
  return {
    ...world,
    write: (text, about) => void said.push({ to: 'write', text, about }),
    complain: (text) => void said.push({ to: 'complain', text }),
  };
}

async function decided({ asker }: AtEntry, scene: EntryScene): Promise<EndOfEntry> {
  const chosen = await asker.ask(deciding(), scene);
  if (chosen.end) return chosen.end === 'back' ? 'back' : 'discard';
  return decisionOf(chosen) ?? 'discard';
}
