/** Asks questions on the world's screen, and keeps back what is said until they are over. */
import {
  begin,
  frameOf,
  press,
  stepBack,
  type Above,
  type QuestionState,
} from '../../entry/questions/asking.ts';
import {
  question,
  takenAnswer,
  type Answer,
  type Question,
  type Script,
} from '../../entry/questions/question.ts';
import { fitFrame, paintFrame } from '../../render/terminal/frame.ts';
import { printed, type Printable } from '../../render/printable.ts';
import type { Agreed } from './change.ts';
import { lateLock } from './locked.ts';
import { EXIT, type Screen, type World } from '../world.ts';

/** What to type in general; it stands above all questions. */
const KEYS_HEAD = '< goes back, Tab or arrows choose, Ctrl-C gives up.';

/** Asks until all is answered, or until it is given up or gone back from the first question. */
async function askOn(screen: Screen, from: QuestionState, above: Above): Promise<QuestionState> {
  let asking = from;
  while (asking.question && !asking.end) {
    screen.draw(paintFrame(fitFrame(frameOf(asking, above), screen.size())));
    asking = press(asking, await screen.key());
  }
  return asking;
}

/** How a command went that was run on answers: what it asked at its end, and what it said. */
interface Tried {
  readonly status: number;
  /** Absent where it came to no such question. */
  readonly decision?: Decision;
  readonly said: readonly KeptBack[];
}

type Decision = 'yes' | 'no' | 'back' | 'cancelled';

interface KeptBack {
  readonly to: 'write' | 'complain';
  readonly text: Printable;
  readonly about?: 'change' | 'words' | undefined;
}

/** What is asked, and what is done with the answers. */
interface Errand {
  /** What it is about: `New sale`. */
  readonly title: string;
  /** The studio's folder. */
  readonly folder: string;
  readonly script: Script;
  /**
   * Opens the studio, looks at what the answers say, and writes it if `agreed` says so when it is
   * asked: that takes the studio's lock.
   */
  readonly carryOut: (answers: readonly Answer[], world: World, agreed: Agreed) => Promise<number>;
}

/**
 * Asks for everything, shows what comes of it, and has it written if the answer is yes. What stands
 * in the way leads back to the questions. Given up, nothing is left but one line that says so.
 */
export async function runErrand(world: World, errand: Errand): Promise<number> {
  const screen = await world.openScreen?.();
  if (!screen) return EXIT.cannotRun;
  let said: readonly KeptBack[] = [];
  try {
    const tried = await askAndTry(world, screen, errand);
    said = tried.said;
    return tried.status;
  } finally {
    screen.close();
    for (const { to, text, about } of said) world[to](text, about);
  }
}

async function askAndTry(world: World, screen: Screen, errand: Errand): Promise<Tried> {
  const above = { head: `${errand.title}. ${KEYS_HEAD}`, lines: [] };
  let asking = begin(errand.script);
  for (;;) {
    asking = await askOn(screen, asking, above);
    const tried = await afterAnswers(asking, { world, screen, errand });
    if (tried) return tried;
    asking = stepBack(asking);
  }
}

/** What the answers led to; undefined where it goes on with the questions. */
async function afterAnswers(
  { end, answers }: QuestionState,
  scene: AtScreen,
): Promise<Tried | undefined> {
  if (end === 'cancelled') return GIVEN_UP;
  if (end === 'back') return undefined;
  let tried = await tryOut(scene, answers, []);
  while ('moved' in tried) tried = await tryOut(scene, answers, tried.moved);
  if (tried.decision === 'cancelled') return GIVEN_UP;
  return tried.decision === 'back' ? undefined : tried;
}

interface AtScreen {
  readonly world: World;
  readonly screen: Screen;
  readonly errand: Errand;
}

const GIVEN_UP: Tried = {
  status: EXIT.interrupted,
  said: [{ to: 'complain', text: printed`Given up: nothing was written.\n` }],
};

/** That somebody else has written meanwhile, so that it has to be looked at again; what there is to say of it. */
interface StudioMoved {
  readonly moved: readonly KeptBack[];
}

const LOOK_AGAIN: KeptBack = {
  to: 'complain',
  text: printed`The studio has changed since you were shown this. This is how it looks now:\n`,
};

/**
 * Tries the answers on the studio as it is. Nothing is locked while somebody thinks about it; once it
 * is agreed to, the studio is, and where it is not as it was then, nothing is written.
 */
async function tryOut(
  { world, screen, errand }: AtScreen,
  answers: readonly Answer[],
  before: readonly KeptBack[],
): Promise<Tried | StudioMoved> {
  const said: KeptBack[] = [...before];
  const lock = lateLock(errand.folder, speakingTo(world, said));
  const end: { decision?: Decision; moved?: readonly KeptBack[] } = {};
  const agreed: Agreed = async () => {
    end.decision = await decide(screen, said, 'Write it?');
    if (end.decision !== 'yes') return false;
    const shown = said.length;
    if (await lock.take()) return true;
    end.moved = [...said.slice(shown), LOOK_AGAIN];
    return false;
  };
  const status = await errand.carryOut(answers, lock.world, agreed).finally(lock.release);
  if (end.moved) return { moved: end.moved };
  if (end.decision === undefined && status !== EXIT.fine) {
    const mend = await decide(screen, said, 'Nothing was written. Go back and change an answer?');
    end.decision = mend === 'yes' ? 'back' : mend;
  }
  return { status, said, ...(end.decision ? { decision: end.decision } : {}) };
}

function speakingTo(world: World, said: KeptBack[]): World {
  return {
    ...world,
    write: (text, about) => void said.push({ to: 'write', text, about }),
    complain: (text) => void said.push({ to: 'complain', text }),
  };
}

async function decide(
  screen: Screen,
  said: readonly KeptBack[],
  prompt: string,
): Promise<Decision> {
  const lines = said.flatMap(({ text }) => text.trimEnd().split('\n'));
  const script: Script = ([answer]) => (answer ? undefined : decision(prompt));
  const above = { head: KEYS_HEAD, lines };
  const { end, answers } = await askOn(screen, begin(script), above);
  if (end) return end;
  return answers[0]?.text === 'no' ? 'no' : 'yes';
}

function decision(prompt: string): Question {
  return question({
    key: 'decision',
    prompt,
    about: 'yes or no; < goes back to the answers, arrows show what is out of sight',
    fallback: 'yes',
    judge: (line) => {
      if (/^y(?:es)?$/i.test(line)) return takenAnswer([], 'yes');
      return /^no?$/i.test(line) ? takenAnswer([], 'no') : { refused: 'answer yes or no' };
    },
  });
}
