/** What is done where something breaks that may come of what was remembered. */
import { madeOnce } from '../../once.ts';
import type { Asked, Command, World } from '../world.ts';

/**
 * Carries a command out. What breaks it may be that something remembered is gone or is not what it should
 * be; so, unless a change was made, it is carried out once more with all read afresh. What it shows is
 * therefore held back until it has come to its end.
 */
export async function carriedOut(command: Command, asked: Asked, world: World): Promise<number> {
  const { held, release, drop } = holdingBack(world);
  try {
    return await command(asked, held);
  } catch (error) {
    if (!world.memory || !drop()) throw error;
    return await command({ ...asked, options: { ...asked.options, afresh: true } }, held);
  } finally {
    release();
  }
}

interface HeldBack {
  readonly held: World;
  readonly release: () => void;
  /** Forgets what is held back; false where a change was told, which can't be made again. */
  readonly drop: () => boolean;
}

function holdingBack(world: World): HeldBack {
  let isChanged = false;
  let said: (() => void)[] = [];
  const release = (): void => {
    for (const say of said) say();
    said = [];
  };
  const held: World = {
    ...world,
    write: (text, about) => {
      said.push(() => {
        world.write(text, about);
      });
      isChanged ||= about === 'change';
      if (isChanged) release();
    },
    writeBytes: (bytes) => {
      said.push(() => world.writeBytes?.(bytes));
    },
    complain: (text) => {
      said.push(() => {
        world.complain(text);
      });
      // What is waited for is told at once.
      if (said.length === 1) release();
    },
    // It can be read only once.
    readInput: madeOnce(world.readInput),
  };
  const drop = (): boolean => {
    said = [];
    return !isChanged;
  };
  return { held, release, drop };
}
