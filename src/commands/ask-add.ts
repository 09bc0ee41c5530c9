/** `saggar add KIND` at a terminal: asks for what is missing, then writes as if all had been options. */
import type { Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { readOptions } from '../entry/options.ts';
import { groundOf, wordsOf } from '../entry/questions/ground.ts';
import { recordScript } from '../entry/questions/record-script.ts';
import { addQuickly } from './add-quickly.ts';
import { addTyped, type TypedOfKind } from './add-typed.ts';
import { runErrand } from './ask.ts';
import type { Scene } from './change.ts';
import { openKnown } from './known.ts';
import { refuse } from './show.ts';
import { isRefusal, type Asked, type World } from './world.ts';

/** What was given on the command line. */
export interface Given {
  readonly kind: Kind;
  /** Options and values, in turns. */
  readonly words: readonly string[];
  readonly id: string | undefined;
}

/** Asks for the rest of a record, and adds it. */
export function askAndAdd(scene: Scene, { kind, words, id }: Given): Promise<number> {
  const ground = groundOf(scene.opened, { kind, words });
  return runErrand(scene.world, {
    title: `New ${NOUN[kind]}`,
    script: recordScript(ground),
    carryOut: async (answers, world, agreed) => {
      const read = readOptions({ kind, words: wordsOf(ground, answers), others: [] });
      if ('refused' in read) return refuse(world, read);
      const records = [{ id, fields: read.fields }];
      const typed = { kind, records, problems: [], agreed };
      return (await addAsKnown(scene.asked, world, typed)) ?? addTyped({ ...scene, world }, typed);
    },
  });
}

// The questions take their time, so it is looked at anew what is known.
async function addAsKnown(
  asked: Asked,
  world: World,
  typed: TypedOfKind,
): Promise<number | undefined> {
  const known = openKnown(asked, world);
  return isRefusal(known) ? undefined : addQuickly({ asked, world, opened: known }, typed);
}
