import { describe, expect, it } from 'vitest';
import { completeWords } from '../../src/commands/completing/complete-words.ts';
import { run } from '../helpers/command-world.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const STUDIO = {
  'studio.yaml': 'format: 1\nname: Test\ncurrency: USD\n',
  'firings.yaml': `
f-out: { date: 2026-03-01, kiln: shed, kind: bisque, load: [{ lot: p1, in: 3, first: 3 }] }
f-half:
  date: 2026-03-02
  kiln: shed
  kind: glaze
  load: [{ lot: p1, in: 3, lost: 3 }, { lot: p2, in: 2 }]
f-empty: { date: 2026-03-03, kiln: shed, kind: test, load: [] }
`,
  'firings/late.yaml':
    'f-in: { date: 2026-03-09, kiln: shed, kind: bisque, load: [{ lot: p3, in: 4 }] }\n"f\\e[2J": { date: 2026-03-09, load: [{ lot: p3, in: 4 }] }\n',
};

async function completed(words: readonly string[]): Promise<string> {
  return (await run(completeWords, tempStudio(STUDIO), { words })).out;
}

describe('completion of what is to be unloaded', () => {
  it('offers the firings that are still in the kiln, the latest first', async () => {
    expect(await completed(['unload', 'f'])).toBe(
      'words\nf-in\t2026-03-09 bisque shed\nf-half\t2026-03-02 glaze shed\n',
    );
    expect(await completed(['unload', 'f-h'])).toBe('words\nf-half\t2026-03-02 glaze shed\n');
  });

  it('offers every firing to those who look at one', async () => {
    const words = (await completed(['firings', 'f-'])).split('\n').slice(1, -1);
    expect(words.map((line) => line.split('\t')[0]).sort()).toEqual([
      'f-empty',
      'f-half',
      'f-in',
      'f-out',
    ]);
  });

  it('offers nothing outside a studio', async () => {
    const { out } = await run(completeWords, tempStudio({}), { words: ['unload', ''] });
    expect(out).toBe('words\n');
  });
});
