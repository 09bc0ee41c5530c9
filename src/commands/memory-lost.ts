/** What is done where the memory turns out not to be what it was when a command began. */
import { MEMORY_LOST } from '../memory/boxes.ts';
import type { Asked, Command, World } from './world.ts';

/** Carries a command out; where what it believed in is lost, once more with nothing remembered. */
export async function carriedOut(command: Command, asked: Asked, world: World): Promise<number> {
  try {
    return await command(asked, world);
  } catch (error) {
    if (!(error instanceof Error) || error.name !== MEMORY_LOST) throw error;
    return command(asked, withoutMemory(world));
  }
}

function withoutMemory(world: World): World {
  const others: Omit<World, 'memory'> & { memory?: NonNullable<World['memory']> } = { ...world };
  delete others.memory;
  return others;
}
