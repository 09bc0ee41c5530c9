import { describe, expect, it } from 'vitest';
import { completeWords } from '../../src/commands/completing/complete-words.ts';
import type { Asked, World } from '../../src/commands/world.ts';
import { run } from '../helpers/command-world.ts';
import { EXAMPLE } from '../helpers/program.ts';

describe('complete-words', () => {
  it('answers line by line', async () => {
    const said = await run(completeWords, EXAMPLE, { words: ['pieces', '--by', 'pl'] });
    expect(said).toEqual({ status: 0, out: 'words\nplace\t\n', err: '' });
  });

  it('says nothing of a failure of whatever kind', async () => {
    const failing = (asked: Asked, world: World): Promise<number> => {
      const broken: World = {
        ...world,
        get folder(): string {
          throw new Error('the disk is gone');
        },
      };
      return completeWords(asked, broken);
    };
    const said = await run(failing, EXAMPLE, { words: ['materials', ''] });
    expect(said).toEqual({ status: 0, out: '', err: '' });
  });
});
