/** Asks at a terminal for what options leave out, then writes as if all had been options. */
import type { Kind } from '../../book.ts';
import { NOUN } from '../../check/finding.ts';
import type { FairDay } from '../../entry/closing/count.ts';
import { readOptions } from '../../entry/fields.ts';
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import { closingScript, closingWords } from '../../entry/questions/closing-script.ts';
import { groundOf, optionWords } from '../../entry/questions/ground.ts';
import {
  answerText,
  question,
  takenAnswer,
  type Question,
} from '../../entry/questions/question.ts';
import { recordScript } from '../../entry/questions/record-script.ts';
import {
  outcomeSentences,
  unloadScript,
  usualReadings,
  type KilnReading,
} from '../../entry/questions/unload-script.ts';
import type { Typed } from './add-typed.ts';
import { runErrand } from './ask.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { Agreed, Scene } from './change.ts';
import type { SaidOptions } from './close-fair.ts';
import { refuse } from '../reports/show.ts';
import { printed } from '../../render/printable.ts';
import { EXIT, type World } from '../world.ts';

/** Asks for the rest of a record, and adds it. */
export function askAndAdd(
  { asked, world, opened }: Scene<OptionsOf<'add'>>,
  { kind, words }: { readonly kind: Kind; readonly words: readonly string[] },
  add: (typed: Typed, world: World) => Promise<number>,
): Promise<number> {
  const ground = groundOf(opened, { kind, words });
  return runErrand(world, {
    title: `New ${NOUN[kind]}`,
    folder: opened.folder,
    script: recordScript(ground),
    carryOut: async (answers, inner, agreed) => {
      const read = readOptions({ kind, words: optionWords(ground, answers), others: [] });
      if ('refused' in read) return refuse(inner, read);
      const records = [{ id: asked.options.id, fields: read.fields }];
      return add({ kind, records, problems: [], agreed }, inner);
    },
  });
}

/** Asks how a day at a fair ended, and ends it. */
export function askAndClose(
  { world, opened }: Scene,
  { at, said }: { readonly at: FairDay; readonly said: SaidOptions },
  close: (said: SaidOptions, world: World, agreed: Agreed) => Promise<number>,
): Promise<number> {
  const lexicon = lexiconOf(opened.reading.files);
  const known = new Map([...said, ['fair', [at.fair.id]] as const, ['date', [at.day]] as const]);
  const stall = { opened, lexicon, at, said: known };
  return runErrand(world, {
    title: `End of ${at.day} at ${at.fair.name}`,
    folder: opened.folder,
    script: closingScript(stall),
    carryOut: (answers, inner, agreed) => close(closingWords(stall, answers), inner, agreed),
  });
}

/** Asks lot by lot what came out of a firing, then for the readings that are usual, and unloads it. */
export function askAndUnload<Option extends string>(
  { world, opened }: Scene,
  {
    firing,
    readings,
  }: { readonly firing: FoundRecord; readonly readings: readonly KilnReading<Option>[] },
  unload: (
    said: Readonly<Partial<Record<Option, string>>> & { readonly line: readonly string[] },
    world: World,
    agreed: Agreed,
  ) => Promise<number>,
): Promise<number> {
  const lexicon = lexiconOf(opened.reading.files);
  const usual = usualReadings(firing, lexicon, readings);
  const load = { opened, lexicon, firing, readings: usual };
  return runErrand(world, {
    title: `Unloading ${firing.id}`,
    folder: opened.folder,
    script: unloadScript(load),
    carryOut: (answers, inner, agreed) => {
      const read = usual
        .map(({ option }) => [option, answerText(answers, option)] as const)
        .filter(([, text]) => text !== '');
      const said = Object.fromEntries(read) as Partial<Record<Option, string>>;
      return unload({ ...said, line: outcomeSentences(load, answers) }, inner, agreed);
    },
  });
}

/** Asks whether a change may reach what is past, and makes it where the answer is yes. */
export function askConsent(
  { world, opened }: Scene,
  reason: string,
  change: (world: World, agreed: Agreed) => Promise<number>,
): Promise<number> {
  return runErrand(world, {
    title: 'A change of what was mixed',
    folder: opened.folder,
    script: ([answer]) => (answer ? undefined : consentQuestion(reason)),
    carryOut: (answers, inner, agreed) => {
      if (answers[0]?.text === 'yes') return change(inner, agreed);
      inner.complain(printed`Nothing was saved. For a new version from a day on: saggar revise\n`);
      return Promise.resolve(EXIT.fine);
    },
  });
}

function consentQuestion(reason: string): Question {
  return question({
    key: 'consent',
    prompt: 'Change it all the same?',
    about: `${reason}; yes or no`,
    fallback: 'no',
    judge: (line) => {
      if (/^y(?:es)?$/i.test(line)) return takenAnswer([], 'yes');
      return /^no?$/i.test(line) ? takenAnswer([], 'no') : { refused: 'answer yes or no' };
    },
  });
}
