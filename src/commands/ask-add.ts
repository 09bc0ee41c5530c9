/** `saggar add KIND` at a terminal: asks for what is missing, then writes as if all had been options. */
import type { Kind } from '../book.ts';
import { NOUN } from '../check/finding.ts';
import { readOptions } from '../entry/options.ts';
import { groundOf, wordsOf } from '../entry/questions/ground.ts';
import { recordScript } from '../entry/questions/record-script.ts';
import type { TypedOfKind } from './add-typed.ts';
import { runErrand } from './ask.ts';
import type { Scene } from './change.ts';
import { refuse } from './show.ts';
import type { Asked, World } from './world.ts';

/** What was given on the command line, and how a record is added by options. */
export interface Given {
  readonly kind: Kind;
  /** Options and values, in turns. */
  readonly words: readonly string[];
  readonly id: string | undefined;
  readonly add: (typed: TypedOfKind, asked: Asked, world: World) => Promise<number>;
}

/** Asks for the rest of a record, and adds it. */
export function askAndAdd(
  { asked, world: terminal, opened }: Scene,
  { kind, words, id, add }: Given,
): Promise<number> {
  const ground = groundOf(opened, { kind, words });
  return runErrand(terminal, {
    title: `New ${NOUN[kind]}`,
    folder: opened.folder,
    script: recordScript(ground),
    carryOut: async (answers, world, agreed) => {
      const read = readOptions({ kind, words: wordsOf(ground, answers), others: [] });
      if ('refused' in read) return refuse(world, read);
      const records = [{ id, fields: read.fields }];
      return add({ kind, records, problems: [], agreed }, asked, world);
    },
  });
}
