/** Asks for an entry line by line, with nothing drawn over: for a screen that is read out, or moves no cursor. */
import { offersOf, press, usualOf, type QuestionState } from '../../entry/questions/asking.ts';
import { EMPTY_LINE, lineAtEnd } from '../../entry/questions/line.ts';
import type { KeyName, Offer, Question } from '../../entry/questions/question.ts';
import { printed, printedLines, together, type Printable } from '../../render/printable.ts';
import { effectsOf, type EntryAsker, type EntryScene } from './entry-scene.ts';
import type { TypedLines } from '../world.ts';

/** Goes a field back; no value begins like that. */
const BACK = '/back';
/** Leaves out a field that has a usual value, or takes a line out that comes back. */
const LEAVE_OUT = '-';
/** More choices than these are not read out. */
const MOST_OFFERS = 9;

const CUT_OFF = printed`Discarded. Nothing was saved.\n`;

/** Asks on a terminal that keeps all that was shown. */
export function plainAsker(lines: TypedLines): EntryAsker {
  const pasted: string[] = [];
  let isBegun = false;
  const begin = async (scene: EntryScene): Promise<void> => {
    if (!isBegun) lines.say(beginning(scene));
    isBegun = true;
    if (!scene.answers) return;
    // What was pasted answers fields, never what is done with the whole.
    lines.say(leftOver([...pasted.splice(0), ...(await lines.arrived())]));
    lines.say(finished(scene));
  };
  return {
    keeps: true,
    ask: async (from, scene) => {
      await begin(scene);
      let asking = from;
      let isRefused = false;
      while (asking.question && !asking.end) {
        lines.say(questionText(asking, asking.question, isRefused));
        const next = isRefused ? undefined : pasted.shift();
        if (next !== undefined) lines.say(printed`${next}\n`);
        const before: QuestionState = asking;
        const bare = isRefused ? { ...asking, line: EMPTY_LINE, isOld: false } : asking;
        asking = given(bare, next ?? (await lines.line(CUT_OFF)));
        isRefused = asking.answers === before.answers && asking.message !== '';
        if (isRefused) pasted.push(...(await lines.arrived()));
        if (isRefused) lines.say(waiting(pasted));
        else lines.say(comesTo(before, asking));
      }
      return asking;
    },
    close: lines.close,
  };
}

function given(asking: QuestionState, text: string | undefined): QuestionState {
  if (text === undefined) return named(asking, 'cancel');
  const typed = text.trim();
  if (typed === BACK) return named(asking, 'back');
  if (typed === '') return named(asking, 'enter');
  const bare = { ...asking, line: EMPTY_LINE, isOld: false, picked: undefined };
  if (typed === LEAVE_OUT) return named({ ...bare, isBare: true }, 'enter');
  const line = lineAtEnd(chosen(asking, typed)?.line.trim() ?? typed);
  return named({ ...bare, line }, 'enter');
}

function named(asking: QuestionState, name: KeyName): QuestionState {
  return press(asking, { name, text: '' });
}

/** The choice that a number names, unless the number could be meant itself. */
function chosen(asking: QuestionState, typed: string): Offer | undefined {
  const offer = /^\d+$/.test(typed) ? readOut(asking)[Number(typed) - 1] : undefined;
  const verdict = offer && asking.question?.judge(typed);
  return verdict && 'refused' in verdict ? offer : undefined;
}

function readOut(asking: QuestionState): readonly Offer[] {
  return offersOf({ ...asking, line: EMPTY_LINE }).slice(0, MOST_OFFERS);
}

function beginning({ title, preview }: EntryScene): Printable {
  const file = preview.record([], undefined)?.file;
  const where = file === undefined ? '' : `, in ${file}`;
  return printed`${title}${where}. ${BACK} goes a field back, Ctrl-C discards it all.\n`;
}

function questionText(asking: QuestionState, question: Question, isRefused: boolean): Printable {
  const { prompt, about } = question;
  const { message } = asking;
  const offers = readOut(asking);
  const more = offersOf({ ...asking, line: EMPTY_LINE }).length - offers.length;
  const texts = [
    '',
    ...(message === '' ? [] : [`! ${message}`]),
    about === '' ? prompt : `${prompt}: ${about}`,
    ...offers.map(
      ({ label, note }, at) => `  ${at + 1} ${[label, note].filter(Boolean).join(', ')}`,
    ),
    ...(more > 0 ? [`  and ${more} more`] : []),
    hintOf(isRefused ? { ...asking, line: EMPTY_LINE } : asking, question, offers.length),
  ];
  return together([printedLines(texts), printed`${prompt.replace(/\?$/, '')}: `]);
}

/** What Enter and the other short answers do. */
function hintOf(asking: QuestionState, { mayBeEmpty, isList }: Question, count: number): string {
  const now = asking.line.text;
  const usual = usualOf(asking);
  const leaves =
    mayBeEmpty || isList ? `, ${LEAVE_OUT} ${isList ? 'takes it out' : 'leaves it out'}` : '';
  const enter = isList ? 'Enter ends the list.' : 'Enter leaves it out.';
  const hints = [
    now === '' ? '' : `Now: ${now}. Enter keeps it${leaves}.`,
    now !== '' || usual === '' ? '' : `Usual: ${usual}. Enter takes it${leaves}.`,
    now !== '' || usual !== '' || !mayBeEmpty ? '' : enter,
    count === 0 ? '' : numbersText(count),
  ];
  return hints.filter((hint) => hint !== '').join(' ');
}

function numbersText(count: number): string {
  const numbers = count === 1 ? '1' : `A number from 1 to ${count}`;
  return `${numbers} chooses, unless it is an answer itself.`;
}

/** What the last line of a list comes to. */
function comesTo(before: QuestionState, { answers }: QuestionState): Printable {
  const last = answers.at(-1);
  const isNew = answers.length > before.answers.length && last !== undefined && last.right !== '';
  return isNew ? printed`${last.right}\n` : printed``;
}

function waiting(pasted: readonly string[]): Printable {
  if (pasted.length === 0) return printed``;
  return printedLines([
    'These lines wait until that is answered:',
    ...pasted.map((line) => `  ${line}`),
  ]);
}

function leftOver(pasted: readonly string[]): Printable {
  const lines = pasted.filter((line) => line.trim() !== '');
  if (lines.length === 0) return printed``;
  return printedLines([
    '',
    'These lines were left over, and answer nothing:',
    ...lines.map((line) => `  ${line}`),
  ]);
}

/** The record and what saving it changes; of a choice before that, what is wrong. */
function finished(scene: EntryScene): Printable {
  const { answers = [], effects, notes, preview } = scene;
  const record = effects && preview.record(answers, undefined);
  const changes = effects ? effectsOf(scene, answers) : [];
  return printedLines([
    '',
    ...(record ? [`${record.file}:`, ...record.lines] : []),
    ...(changes.length > 0 ? ['Saving changes:', ...changes.map((line) => `  ${line}`)] : []),
    ...notes,
  ]);
}
