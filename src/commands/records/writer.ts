/** Who writes in a world, and what is said where a write was cut off or can't be. */
import { printed } from '../../render/printable.ts';
import { leftHalfDone } from '../../write/note.ts';
import type { Lock, Writer } from '../../write/store.ts';
import { EXIT, type Refusal, type World } from '../world.ts';

/** Who writes files in a world, and what is said of it there. */
export function writerIn({ writer, stateFolder, complain }: World): Writer {
  return {
    ...writer,
    stateFolder,
    tell: (line) => {
      complain(printed`saggar: ${line}\n`);
    },
  };
}

/** The world of somebody who holds a lock, or is told by every write why not. */
export function holding(world: World, held: () => Lock | Refusal | undefined): World {
  return { ...world, writer: { ...world.writer, held } };
}

/** Says in one sentence why nothing was written, and returns the status for it. */
export function notWritten(world: World, refused: string): number {
  world.complain(printed`saggar: nothing was written: ${refused}\n`);
  return EXIT.errors;
}

/** Says where a change of several files was left half done; that changes nothing else. */
export async function sayHalfDone(studio: string, world: World): Promise<void> {
  const files = await leftHalfDone(studio, writerIn(world));
  if (files.length === 0) return;
  world.complain(
    printed`saggar: a change was cut off half done (${files.join(', ')}); the next command that writes will undo it\n`,
  );
}
