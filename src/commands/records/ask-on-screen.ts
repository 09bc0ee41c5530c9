/** Shows an entry on the whole screen: the record in its file, with the field that is filled in its place. */
import {
  offersOf,
  pasteOn,
  pickedOf,
  press,
  usualOf,
  type QuestionState,
} from '../../entry/questions/asking.ts';
import { PLACE } from '../../entry/questions/preview.ts';
import type { Path } from '../../read/raw.ts';
import type { Question } from '../../entry/questions/question.ts';
import { fitFrame, paintFrame, type FrameView } from '../../render/terminal/frame.ts';
import { effectsOf, type EntryAsker, type EntryScene } from './entry-scene.ts';
import type { Screen, World } from '../world.ts';

/** Asks on a screen that is gone once it is closed. */
export function screenAsker(screen: Screen, { colour, environment }: World): EntryAsker {
  const isWide = isUtf8(environment);
  const draw = (asking: QuestionState, scene: EntryScene): void => {
    const frame = fitFrame(viewOf(asking, scene), { ...screen.size(), isWide });
    screen.draw(paintFrame(frame, colour));
  };
  const next = async (asking: QuestionState): Promise<QuestionState> =>
    asking.isPasting ? pasteOn(asking) : press(asking, await screen.key());
  return {
    keeps: false,
    ask: async (from, scene) => {
      let asking = from;
      while (asking.question && !asking.end) {
        draw(asking, scene);
        asking = await next(asking);
      }
      return asking;
    },
    close: screen.close,
  };
}

/** What a terminal shows goes by the first of these that says anything (POSIX). */
function isUtf8({ LC_ALL, LC_CTYPE, LANG }: World['environment']): boolean {
  const locale = [LC_ALL, LC_CTYPE, LANG].find((each) => each !== undefined && each !== '');
  return /utf-?8/i.test(locale ?? '');
}

function viewOf(asking: QuestionState, scene: EntryScene): FrameView {
  const { question, message, pasted, line } = asking;
  const { title, notes } = scene;
  const offers = offersOf(asking);
  const { prompt = '', about = '' } = question ?? {};
  const isChoice = scene.answers !== undefined || isMarked(asking);
  const { file, record } = recordView(asking, scene);
  // What is typed outside the record has its name before it.
  const isNamed = record.typed !== undefined && record.at === undefined;
  return {
    title,
    file,
    record,
    field: { name: isNamed ? '' : prompt, about: isChoice ? line.text : about },
    line,
    usual: usualOf(asking),
    message,
    notes,
    pasted,
    offers,
    picked: pickedOf(asking),
    effects: effectsOf(scene, scene.answers ?? asking.answers),
    keys: isChoice ? CHOICE_KEYS : keysFor(asking, offers.length > 0),
  };
}

/** What an offer that is chosen now is of. */
function markedBy(asking: QuestionState, marks: EntryScene['marks']): Path | undefined {
  return marks(offersOf(asking)[pickedOf(asking) ?? -1]?.line ?? '');
}

/** Whether a field of the record is chosen, and no answer typed. */
function isMarked({ question, picked }: QuestionState): boolean {
  return question?.marks !== undefined && picked !== undefined;
}

function recordView(asking: QuestionState, scene: EntryScene): Pick<FrameView, 'file' | 'record'> {
  const { answers, preview } = scene;
  const marks = answers ? scene.marks : isMarked(asking) ? asking.question?.marks : undefined;
  const place = marks ? markedBy(asking, marks) : asking.question?.path;
  const all = answers ?? asking.answers;
  const shown = preview.record(all, place);
  const { file = '', isNew = false, above = [], lines = [] } = shown ?? {};
  const found = lines.findIndex((line) => line.includes(PLACE));
  const at = found < 0 ? undefined : found;
  const named = isNew ? `${file} (new file)` : file;
  const about = { above, lift: asking.lift };
  if (marks) {
    const whole = preview.record(all, undefined)?.lines ?? [];
    return { file: named, record: { ...about, lines: whole, at, typed: undefined } };
  }
  const [before = `${asking.question?.prompt ?? ''}: `, after = ''] =
    at === undefined ? [] : (lines[at] ?? '').split(PLACE);
  return { file: named, record: { ...about, lines, at, typed: { before, after } } };
}

const CHOICE_KEYS = ['Enter chooses', 'Esc goes back', 'Ctrl-C discards', 'Arrows or letters move'];

function keysFor(asking: QuestionState, hasOffers: boolean): readonly string[] {
  const { question, before } = asking;
  const usual = usualOf(asking);
  return [
    question ? enterKey(asking, question) : '',
    before ? 'Esc leaves it as it was' : 'Esc goes back',
    'Ctrl-C discards',
    hasOffers ? 'Tab, arrows choose' : '',
    usual !== '' && asking.line.text === '' ? 'Backspace takes the usual away' : '',
  ].filter((key) => key !== '');
}

function enterKey(asking: QuestionState, question: Question): string {
  if (asking.line.text.trim() !== '' || asking.picked !== undefined) return 'Enter takes it';
  if (usualOf(asking) !== '') return 'Enter takes the usual';
  const changed = asking.before?.[asking.answers.length];
  if (question.isList && changed && changed.text !== '') return 'Enter takes the line out';
  if (!question.mayBeEmpty) return '';
  return question.isList ? 'Enter ends the list' : 'Enter leaves it out';
}
