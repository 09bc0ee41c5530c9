/** `saggar gone "1 mug oatmeal" --why gift`: what left without a sale, found by product. */
import { countIn } from '../../grouping.ts';
import { NOUN, listed } from '../../check/finding.ts';
import { planClosing, type ClosingPlan } from '../../entry/closing/decide.ts';
import { inWord, typedProblems } from '../../entry/faults.ts';
import { recordIn } from '../../entry/given.ts';
import { readGone, type GoneOptions, type GoneSaid } from '../../entry/gone/said.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { undoAmended } from '../../entry/undoing/undo.ts';
import { textUnder } from '../../read/raw.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { carryOut, complainOf, type Agreed, type Scene } from './change.ts';
import { unknownId } from '../ids.ts';
import { inStudio, whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { EXIT, isRefusal, mayAsk, type Refusal } from '../world.ts';
import { notWritten } from './writer.ts';

/** Writes what left without a sale into the lots that it is of. */
export const gone: CommandOf<'gone'> = (asked, world) =>
  asked.words.length === 0 && mayAsk(world, asked.options)
    ? inStudio({ asked, world }, askWhatLeft)
    : whileLocked({ asked, world }, (scene) => goneAsked(scene));

async function askWhatLeft(scene: Scene<OptionsOf<'gone'>>): Promise<number> {
  const { asked } = scene;
  const options = goneOptions(scene);
  if (isRefusal(options)) return refuse(scene.world, options);
  const { askAndLetGo } = await import('./ask-for.ts');
  return askAndLetGo(scene, options, (said, inner, agreed) => {
    const all: AskedOf<'gone'> = {
      ...asked,
      ...said,
      options: { ...asked.options, ...said.options },
    };
    return inStudio({ asked: all, world: inner }, (again) => goneAsked(again, agreed));
  });
}

async function goneAsked(scene: Scene<OptionsOf<'gone'>>, agreed?: Agreed): Promise<number> {
  const { asked, world, opened } = scene;
  const { words } = asked;
  if (words.length === 0)
    return refuse(world, {
      refused: 'say what left, as in saggar gone "1 mug oatmeal" --why gift',
    });
  const options = goneOptions(scene);
  if (isRefusal(options)) return refuse(world, options);
  const lexicon = lexiconOf(opened.reading.files);
  const said = readGone({ ...opened, lexicon }, words, options);
  complainOf(
    world,
    typedProblems(said.faults, (fault) => inWord('gone', fault)),
  );
  if (said.faults.length > 0) return EXIT.errors;
  const { lots } = said;
  const plan = await planClosing(opened, {
    sale: undefined,
    id: undefined,
    lots,
    random: world.random,
  });
  if ('refused' in plan) return notWritten(world, plan.refused);
  if (plan.errors > 0) {
    complainOf(world, plan.problems);
    return notWritten(world, 'the book would not be sound with it');
  }
  return carryOut(scene, {
    plan,
    shown: plan.lots.map(({ record: { id, file } }) => recordIn(plan.textOf(file), id)),
    done: doneWords(said, plan),
    undo: () => undoAmended({ opened, plan }, lots),
    agreed,
  });
}

/** `Recorded 3 gone: 2 of p260301ab in pieces/p260301ab.yaml and 1 of p260302cd in …`. */
function doneWords({ wares }: GoneSaid, { lots }: ClosingPlan): string {
  const total = countIn(wares);
  const parts = lots.map(({ record: { id, file }, amendments }) => {
    const counts = amendments.map(({ value }) => Number(textUnder(value, 'count')));
    return `${counts.reduce((sum, count) => sum + count, 0)} of ${id} in ${file}`;
  });
  return `Recorded ${total} gone: ${listed(parts)}`;
}

/** The options, with the ids as they are written in the book. */
function goneOptions({ asked, opened }: Scene<OptionsOf<'gone'>>): GoneOptions | Refusal {
  const { why: how, channel, fair, lot, date, note } = asked.options;
  const lexicon = lexiconOf(opened.reading.files);
  const named = { channels: channel, fairs: fair, pieces: lot } as const;
  const ids = new Map<string, string>();
  for (const kind of ['channels', 'fairs', 'pieces'] as const) {
    const word = named[kind];
    if (word === undefined) continue;
    const record = lexicon.find(word);
    if (record?.kind !== kind) return unknownId(NOUN[kind], word, lexicon.ids([kind]));
    ids.set(kind, record.id);
  }
  return {
    how,
    channel: ids.get('channels'),
    fair: ids.get('fairs'),
    lot: ids.get('pieces'),
    date,
    note,
  };
}
