/** A command that breaks is carried out once more with all read afresh, unless it has made a change. */
import { expect, it } from 'vitest';
import { carriedOut } from '../../src/commands/studio/memory-lost.ts';
import type { Asked, Command, World } from '../../src/commands/world.ts';
import { printed } from '../../src/render/printable.ts';
import { memoryForTests } from '../helpers/memory.ts';

const ASKED: Asked = { argument: undefined, words: [], options: {} };

/** A world that notes what it is told, and what happens. */
function noting(): { world: World; notes: string[] } {
  const notes: string[] = [];
  const world = {
    memory: memoryForTests(),
    write: (text: string) => notes.push(text),
    complain: (text: string) => notes.push(`! ${text}`),
    readInput: () => {
      notes.push('read');
      return Promise.resolve(Uint8Array.of(7));
    },
  } as unknown as World;
  return { world, notes };
}

/** Breaks at its end unless all is read afresh. */
function breaking(work: Command): Command {
  return async (asked, world) => {
    const status = await work(asked, world);
    if (asked.options['afresh'] !== true) throw new TypeError('odd');
    return status;
  };
}

it('says what it says when all is read afresh, and takes standard input once', async () => {
  const { world, notes } = noting();
  const command = breaking(async ({ options }, { readInput, write, complain }) => {
    const [byte] = await readInput();
    write(printed`${byte ?? 0}${options['afresh'] === true ? ' afresh' : ''}`);
    complain(printed`so it is`);
    return 1;
  });
  expect(await carriedOut(command, ASKED, world)).toBe(1);
  expect(notes).toEqual(['read', '7 afresh', '! so it is']);
});

it('is not carried out again once a change is made', async () => {
  const { world, notes } = noting();
  const command = breaking((_, { write }) => {
    write(printed`shown`);
    write(printed`added`, 'change');
    return Promise.resolve(0);
  });
  await expect(carriedOut(command, ASKED, world)).rejects.toThrow('odd');
  expect(notes).toEqual(['shown', 'added']);
});

it('breaks where nothing is remembered, or where it breaks afresh too', async () => {
  const { memory, ...forgetful } = noting().world;
  expect(memory).toBeDefined();
  const command = breaking(() => Promise.resolve(0));
  await expect(carriedOut(command, ASKED, forgetful)).rejects.toThrow('odd');
  const mistaken: Command = () => Promise.reject(new Error('a mistake of ours'));
  await expect(carriedOut(mistaken, ASKED, noting().world)).rejects.toThrow('a mistake of ours');
});

it('shows all in its order, and at once what is waited for', async () => {
  const { world, notes } = noting();
  const command: Command = (_, { complain, write }) => {
    complain(printed`waiting`);
    notes.push('begun');
    write(printed`one`);
    complain(printed`two`);
    write(printed`three`);
    notes.push('ended');
    return Promise.resolve(0);
  };
  expect(await carriedOut(command, ASKED, world)).toBe(0);
  expect(notes).toEqual(['! waiting', 'begun', 'ended', 'one', '! two', 'three']);
});
