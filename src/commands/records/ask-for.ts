/** Asks at a terminal for what options leave out, then writes as if all had been options. */
import type { Kind } from '../../book.ts';
import { NOUN } from '../../check/finding.ts';
import type { FairDay } from '../../entry/closing/count.ts';
import type { Amendment } from '../../entry/amendment.ts';
import { readOptions } from '../../entry/fields.ts';
import { HOW_GONE, type GoneOptions } from '../../entry/gone/said.ts';
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import { amendAnswers, amendPreview, amendScript } from '../../entry/questions/amend-script.ts';
import { closingScript, closingWords } from '../../entry/questions/closing-script.ts';
import { goneAnswers, gonePreview, goneScript } from '../../entry/questions/gone-script.ts';
import { groundOf, optionWords } from '../../entry/questions/ground.ts';
import {
  answerText,
  question,
  takenAnswer,
  type Answer,
  type Question,
} from '../../entry/questions/question.ts';
import {
  amendedPreview,
  recordPreview,
  salePreview,
} from '../../entry/questions/record-preview.ts';
import {
  reviseScript,
  revisePreview,
  revisionAnswers,
} from '../../entry/questions/revise-script.ts';
import { recordScript } from '../../entry/questions/record-script.ts';
import { usualReadings, type KilnReading } from '../../entry/questions/unload-readings.ts';
import { outcomeSentences, unloadScript } from '../../entry/questions/unload-script.ts';
import { mapping, type RawMap } from '../../read/raw.ts';
import type { Typed } from './add-typed.ts';
import { runErrand, wantsLines } from './ask.ts';
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
  const { id } = asked.options;
  const chance = sameAgain(world.random);
  return runErrand(world, {
    title: `New ${NOUN[kind]}`,
    folder: opened.folder,
    inLines: wantsLines(asked.options, world),
    script: recordScript(ground),
    preview: recordPreview(ground, { id, chance }),
    carryOut: async (answers, inner, agreed) => {
      const read = readOptions({ kind, words: optionWords(ground, answers), others: [] });
      if ('refused' in read) return refuse(inner, read);
      const records = [{ id, fields: read.fields }];
      return add({ kind, records, problems: [], agreed }, { ...inner, random: chance() });
    },
  });
}

/** Chance that begins anew with the same numbers, so that a record is saved by the id that was shown. */
function sameAgain(random: () => number): () => () => number {
  const known: number[] = [];
  return () => {
    let at = 0;
    return () => (known[at++] ??= random());
  };
}

/** How a day at a fair is ended. */
interface ClosingErrand {
  readonly at: FairDay;
  readonly said: SaidOptions;
  /** The sale of what is said so far. */
  readonly saleOf: (said: SaidOptions) => RawMap | undefined;
  readonly close: (said: SaidOptions, world: World, agreed: Agreed) => Promise<number>;
}

/** Asks how a day at a fair ended, and ends it. */
export function askAndClose(
  { asked, world, opened }: Scene<OptionsOf<'add'>>,
  { at, said, saleOf, close }: ClosingErrand,
): Promise<number> {
  const lexicon = lexiconOf(opened.reading.files);
  const known = new Map([...said, ['fair', [at.fair.id]] as const, ['date', [at.day]] as const]);
  const stall = { opened, lexicon, at, said: known };
  const chance = sameAgain(world.random);
  const sale = mapping([
    ['date', at.day],
    ['channel', at.fair.channel],
  ]);
  return runErrand(world, {
    title: `End of ${at.day} at ${at.fair.name}`,
    folder: opened.folder,
    inLines: wantsLines(asked.options, world),
    script: closingScript(stall),
    preview: salePreview(opened, { id: asked.options.id, chance, known: sale }, (answers) =>
      saleOf(closingWords(stall, answers)),
    ),
    carryOut: (answers, inner, agreed) =>
      close(closingWords(stall, answers), { ...inner, random: chance() }, agreed),
  });
}

/** What is said of a firing, as options. */
type SaidOutcome<Option extends string> = Readonly<Partial<Record<Option, string>>> & {
  readonly line: readonly string[];
};

/** How a firing is unloaded. */
interface UnloadErrand<Option extends string> {
  readonly firing: FoundRecord;
  readonly readings: readonly KilnReading<Option>[];
  /** What is changed in the firing by what is said so far. */
  readonly changes: (said: SaidOutcome<Option>) => readonly Amendment[];
  readonly unload: (said: SaidOutcome<Option>, world: World, agreed: Agreed) => Promise<number>;
}

/** Asks lot by lot what came out of a firing, then for the readings that are usual, and unloads it. */
export function askAndUnload<Option extends string>(
  { asked, world, opened }: Scene<OptionsOf<'unload'>>,
  { firing, readings, changes, unload }: UnloadErrand<Option>,
): Promise<number> {
  const lexicon = lexiconOf(opened.reading.files);
  const usual = usualReadings(firing, lexicon, readings);
  const load = { opened, lexicon, firing, readings: usual };
  const said = (answers: readonly Answer[]): SaidOutcome<Option> => {
    const read = usual
      .map(({ option }) => [option, answerText(answers, option)] as const)
      .filter(([, text]) => text !== '');
    const options = Object.fromEntries(read) as Partial<Record<Option, string>>;
    return { ...options, line: outcomeSentences(load, answers) };
  };
  return runErrand(world, {
    title: `Unloading ${firing.id}`,
    folder: opened.folder,
    inLines: wantsLines(asked.options, world),
    script: unloadScript(load),
    preview: amendedPreview(opened, firing, (answers) => changes(said(answers))),
    carryOut: (answers, inner, agreed) => unload(said(answers), inner, agreed),
  });
}

/** A change of a record that has to be agreed to, and why. */
export interface HeldChange {
  readonly reason: string;
  readonly record: FoundRecord;
  readonly amendments: readonly Amendment[];
}

/** Asks whether a change may reach what is past, and makes it where the answer is yes. */
export function askConsent(
  { asked, world, opened }: Scene<OptionsOf<'amend'>>,
  { reason, record, amendments }: HeldChange,
  change: (world: World, agreed: Agreed) => Promise<number>,
): Promise<number> {
  return runErrand(world, {
    title: `Changing ${record.id}`,
    folder: opened.folder,
    inLines: wantsLines(asked.options, world),
    script: ([answer]) => (answer ? undefined : consentQuestion(reason)),
    preview: amendedPreview(opened, record, () => amendments),
    carryOut: (answers, inner, agreed) => {
      if (answers[0]?.text === 'yes') return change(inner, agreed);
      inner.complain(
        printed`Nothing was saved. For a new version from a day on: saggar revise ${record.id}\n`,
      );
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

/** Asks which record is wrong, and where, and changes it. */
export function askAndAmend(
  { asked, world, opened }: Scene<OptionsOf<'amend'>>,
  record: FoundRecord | undefined,
  write: (words: readonly string[], world: World, agreed: Agreed) => Promise<number>,
): Promise<number> {
  const { from } = asked.options;
  const errand = { opened, lexicon: lexiconOf(opened.reading.files), record, from };
  return runErrand(world, {
    title: record ? `Changing ${record.id}` : 'Changing a record',
    folder: opened.folder,
    inLines: wantsLines(asked.options, world),
    script: amendScript(errand),
    preview: amendPreview(errand),
    carryOut: (answers, inner, agreed) => {
      const said = amendAnswers(errand, answers);
      return write([said.record?.id ?? '', ...said.changes], inner, agreed);
    },
  });
}

/** What was answered about ware that left: the lines, and the options beside them. */
interface SaidGone {
  readonly words: readonly string[];
  readonly options: Pick<OptionsOf<'gone'>, 'why' | 'date' | 'note'>;
}

/** Asks what left without a sale, and writes it. */
export function askAndLetGo(
  { asked, world, opened }: Scene<OptionsOf<'gone'>>,
  options: GoneOptions,
  letGo: (said: SaidGone, world: World, agreed: Agreed) => Promise<number>,
): Promise<number> {
  const lexicon = lexiconOf(opened.reading.files);
  const errand = { opened, lexicon, options };
  return runErrand(world, {
    title: 'What left without a sale',
    folder: opened.folder,
    inLines: wantsLines(asked.options, world),
    script: goneScript(errand),
    preview: gonePreview(errand),
    carryOut: (answers, inner, agreed) => {
      const { sentences, options: said } = goneAnswers(errand, answers);
      const { how, date, note } = said;
      const why = HOW_GONE.find((word) => word === how) as OptionsOf<'gone'>['why'];
      return letGo({ words: sentences, options: { why, date, note } }, inner, agreed);
    },
  });
}

/** What was answered about a new version: the recipe with its changes, and the options beside them. */
interface SaidRevision {
  readonly words: readonly string[];
  readonly options: Pick<OptionsOf<'revise'>, 'from' | 'note'>;
}

/** Asks what a new version of a recipe has, and writes it. */
export function askAndRevise(
  { asked, world, opened }: Scene<OptionsOf<'revise'>>,
  recipe: FoundRecord | undefined,
  write: (said: SaidRevision, world: World, agreed: Agreed) => Promise<number>,
): Promise<number> {
  const { from, note } = asked.options;
  const errand = { opened, lexicon: lexiconOf(opened.reading.files), recipe, from, note };
  return runErrand(world, {
    title: 'A new version of a recipe',
    folder: opened.folder,
    inLines: wantsLines(asked.options, world),
    script: reviseScript(errand),
    preview: revisePreview(errand),
    carryOut: (answers, inner, agreed) => {
      const said = revisionAnswers(errand, answers);
      const words = [said.recipe?.id ?? '', ...said.changes];
      return write({ words, options: { from: said.from, note: said.note } }, inner, agreed);
    },
  });
}
