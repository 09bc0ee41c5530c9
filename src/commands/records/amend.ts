/** `saggar amend ID FIELD=VALUE …`: changes of a record that is in a file. */
import { amendedFrom } from '../../entry/amend-from.ts';
import { planAmend, type AmendPlan } from '../../entry/amend.ts';
import {
  readChange,
  type Amendable,
  type Amendment,
  type ReadAmendment,
} from '../../entry/amendment.ts';
import { amendedLines } from '../../entry/undoing/change-lines.ts';
import { inWord, typedProblems } from '../../entry/faults.ts';
import { recordIn } from '../../entry/given.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { undoAmended, type UndoStep } from '../../entry/undoing/undo.ts';
import { dayMeant } from '../../number/date.ts';
import { pathWords } from '../../in-words.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import type { HeldChange } from './ask-for.ts';
import { carryOut, complainOf, type Agreed, type Scene } from './change.ts';
import { consentLacking, type ConsentOptions } from './consent.ts';
import { askedAmendable } from './find-record.ts';
import { inStudio, whileLocked } from './locked.ts';
import { putBackRecord } from './put-back.ts';
import { refuse } from '../reports/show.ts';
import { notADay } from '../reports/span.ts';
import { EXIT, isRefusal, mayAsk, type World } from '../world.ts';
import { notWritten } from './writer.ts';

type AmendOptions = OptionsOf<'amend'>;

/** Changes values of one record; nothing else in its file moves. */
export const amend: CommandOf<'amend'> = async (asked, world) => {
  if (asked.options.asItWas) return putBackRecord(asked, world);
  const canAsk = mayAsk(world, asked.options);
  if (canAsk && asked.words.length < 2) return inStudio({ asked, world }, askWhatIsWrong);
  const held: HeldChange[] = [];
  const hold = (change: HeldChange): number => {
    held.push(change);
    return EXIT.errors;
  };
  const status = await whileLocked({ asked, world }, (scene) =>
    amendAsked(scene, canAsk ? { hold } : {}),
  );
  const [change] = held;
  return change ? askConsentFirst(change, asked, world) : status;
};

/** Asks which record, which of its fields, and what is to stand there. */
async function askWhatIsWrong(scene: Scene<AmendOptions>): Promise<number> {
  const { asked, world, opened } = scene;
  const record = asked.argument === undefined ? undefined : askedAmendable(asked, opened);
  if (record && isRefusal(record)) return refuse(world, record);
  if (record?.kind === 'studio') return amendAsked(scene, {});
  const from = dayMeant(asked.options.from ?? opened.asOf, opened.asOf);
  if (from === undefined) return refuse(world, notADay('--from', asked.options.from ?? ''));
  const { askAndAmend } = await import('./ask-for.ts');
  return askAndAmend(scene, record && { ...record, kind: record.kind }, (words, inner, agreed) => {
    const all: AskedOf<'amend'> = { ...asked, argument: words[0], words };
    return inStudio({ asked: all, world: inner }, (again) => amendAsked(again, { agreed }));
  });
}

/** What to do where past mixes would change. */
interface HeldQuestion {
  /** Keeps the question for when the lock is released; absent where nobody can be asked. */
  readonly hold?: (change: HeldChange) => number;
  readonly agreed?: Agreed;
}

function askConsentFirst(
  change: HeldChange,
  asked: AskedOf<'amend'>,
  world: World,
): Promise<number> {
  const all = { ...asked, options: { ...asked.options, evenIfMixed: true } };
  return inStudio({ asked: all, world }, async (scene) => {
    const { askConsent } = await import('./ask-for.ts');
    return askConsent(scene, change, (inner, agreed) =>
      inStudio({ asked: all, world: inner }, (again) => amendAsked(again, { agreed })),
    );
  });
}

async function amendAsked(scene: Scene<AmendOptions>, asking: HeldQuestion): Promise<number> {
  const { asked, world, opened } = scene;
  const record = askedAmendable(asked, opened);
  if (isRefusal(record)) return refuse(world, record);
  const words = asked.words.slice(1);
  if (words.length === 0)
    return refuse(world, {
      refused: `say what to change, as in saggar amend ${wordFor(record)} note="…"`,
    });
  const ground = { lexicon: lexiconOf(opened.reading.files), day: opened.asOf };
  const read: ReadAmendment[] = [];
  for (const word of words) {
    const amendment = readChange(word, record, ground);
    if (isRefusal(amendment)) return refuse(world, amendment);
    read.push(amendment);
  }
  return amendRecord(scene, record, { read, asking });
}

async function amendRecord(
  scene: Scene<AmendOptions>,
  record: Amendable,
  { read, asking }: { readonly read: readonly ReadAmendment[]; readonly asking: HeldQuestion },
): Promise<number> {
  const { asked, world } = scene;
  const problems = read.flatMap(({ path, faults }) =>
    typedProblems(faults, (fault) => ({ ...inWord(pathWords(path), fault), line: 1 })),
  );
  complainOf(world, problems);
  if (problems.length > 0) return EXIT.errors;
  const done = `Amended ${wordFor(record)}`;
  const { from: said } = asked.options;
  if (said === undefined) return amendWith(scene, record, { amendments: read, done, asking });
  const from = dayMeant(said, scene.opened.asOf);
  if (from === undefined) return refuse(world, notADay('--from', said));
  const amendments = amendedFrom(record, read, from);
  if (isRefusal(amendments)) return notWritten(world, amendments.refused);
  return amendWith(scene, record, { amendments, done: `${done} from ${from} on`, asking });
}

/** The word that names a record, or the settings, on a command line. */
function wordFor({ id, file }: Amendable): string {
  return id === '' ? file : id;
}

/** Changes of one record, and the words for them. */
interface Changes {
  readonly amendments: readonly Amendment[];
  readonly done: string;
  readonly agreed?: Agreed | undefined;
  /** What is shown of it, in place of its values. */
  readonly shown?: readonly string[];
  /** Of `amend`: that it has to be agreed to, where figures or mixes of the past would change. */
  readonly asking?: HeldQuestion;
}

/** Carries changes of one record out, unless they would bring an error. */
export async function amendWith(
  scene: Scene<ConsentOptions>,
  record: Amendable,
  { amendments, done, asking, shown, agreed = asking?.agreed }: Changes,
): Promise<number> {
  const { world, opened } = scene;
  const plan = await planAmend(opened, record, amendments);
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  const lacking = asking ? consentLacking(scene, plan) : undefined;
  const { kind } = record;
  if (lacking?.reason !== undefined && asking?.hold && kind !== 'studio')
    return asking.hold({ reason: lacking.reason, record: { ...record, kind }, amendments });
  if (lacking) return notWritten(world, lacking.refused);
  return carryOut(scene, {
    plan,
    shown: asking
      ? [linesText(shown ?? changedLines(plan, amendments))]
      : [recordIn(plan.text, record.id)],
    done: record.id === '' ? done : `${done} in ${record.file}`,
    undo: () => withConsents(scene, undoAmended({ opened, plan }, [{ record, amendments }])),
    agreed,
  });
}

function changedLines(
  { record, edited }: AmendPlan,
  amendments: readonly Amendment[],
): readonly string[] {
  const root = edited.find(({ file }) => file === record.file)?.root;
  const after = record.id === '' ? root : root?.[record.id];
  return amendedLines(record.raw, after ?? '', amendments);
}

function linesText(lines: readonly string[]): string {
  return lines.map((line) => `${line}\n`).join('');
}

/** What had to be agreed to has to be when it is undone, too. */
function withConsents(
  { asked }: Scene<ConsentOptions>,
  steps: readonly UndoStep[],
): readonly UndoStep[] {
  const { evenIfClosed, evenIfMixed } = asked.options;
  const more = [
    ...(evenIfClosed ? ['--even-if-closed'] : []),
    ...(evenIfMixed ? ['--even-if-mixed'] : []),
  ];
  return steps.map((step) =>
    step.given === undefined ? { ...step, words: [...step.words, ...more] } : step,
  );
}
