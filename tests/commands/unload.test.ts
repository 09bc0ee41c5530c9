import { describe, expect, it } from 'vitest';
import { unload } from '../../src/commands/records/unload.ts';
import { run } from '../helpers/command-world.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { changes, filesIn } from '../helpers/temp-studio.ts';

describe('unload', () => {
  const FILE = 'firings/f260430ef.yaml';
  const BEFORE = SMALL_STUDIO[FILE] ?? '';

  it('fills in what came out, by lot and by the order of the load', async () => {
    const folder = small();
    const line = ['5 first', 'p260302cd 4 first 1 second 1 lost 2 cracked', '3 first'];
    const options = { line, coneSeen: '04', hours: '8.5' };
    const { status, out, err } = await run(unload, folder, { words: ['f260430ef'], options });
    expect([status, err]).toEqual([0, '']);
    expect(out).toContain('bowl in the kiln 6 → 0');
    expect(changes(folder, SMALL_STUDIO)).toEqual({
      [FILE]: BEFORE.replace(
        '{ lot: p260302cd, in: 6 }',
        '{ lot: p260302cd, in: 6, first: 4, second: 1, lost: 1, why: { cracked: 2 } }',
      )
        .replace('{ class: evening-class, in: 5 }', '{ class: evening-class, in: 5, first: 5 }')
        .replace('{ outside: a neighbour, in: 3 }', '{ outside: a neighbour, in: 3, first: 3 }')
        .concat("  unloaded: 2026-05-01\n  cone-seen: '04'\n  hours: 8.5\n"),
    });
  });

  it("takes the meter's first reading from the firing before", async () => {
    const folder = small({ [FILE]: BEFORE.replace('  energy: 40 kWh\n', '') });
    const options = { meterAfter: '255' };
    await run(unload, folder, { words: ['f260430ef'], options });
    expect(filesIn(folder)[FILE]).toContain('  meter: { before: 200, after: 255 }\n');
  });

  const LOADED = `  date: 2026-04-30
  kiln: rotunda
  kind: glaze
  load:
    - { outside: a school, in: 9 }
`;

  it('takes the firing that is in the kiln where it is the only one', async () => {
    const folder = small();
    const { status, err } = await run(unload, folder, {
      words: [],
      options: { line: ['6 first'] },
    });
    expect([status, err]).toEqual([0, '']);
    expect(filesIn(folder)[FILE]).toContain('{ lot: p260302cd, in: 6, first: 6 }');
  });

  it('names those that are in a kiln where there are several', async () => {
    const folder = small({ 'firings/more.yaml': `f260430xy:\n${LOADED}` });
    const { status, err } = await run(unload, folder, {
      words: [],
      options: { line: ['5 first'] },
    });
    expect(status).toBe(2);
    expect(err.replace(/\s+/g, ' ')).toContain(
      'say which firing: f260430ef (bisque of 2026-04-30, 14 pieces in Rotunda) or f260430xy (glaze of 2026-04-30, 9 pieces in Rotunda)',
    );
  });

  it('says what is still in the kiln', async () => {
    const folder = small();
    const words = ['f260430ef'];
    const some = await run(unload, folder, { words, options: { line: ['6 first'] } });
    expect(some.out).toContain('Unloaded f260430ef in firings/f260430ef.yaml.\n');
    const left = 'Still in the kiln: 5 evening-class and 3 a neighbour.\n';
    expect(some.out.endsWith(left)).toBe(true);
    const read = await run(unload, folder, { words, options: { hours: '9' } });
    expect(read.out).toContain('Recorded the readings of f260430ef in ');
    expect(read.out.endsWith(left)).toBe(true);
    const options = { line: ['5 first'], dryRun: true };
    expect((await run(unload, folder, { words, options })).out).not.toContain('Still in');
    const all = await run(unload, folder, { words, options: { line: ['5 first', '3 first'] } });
    expect(all.out).not.toContain('Still in');
    const again = await run(unload, folder, { words, options: {} });
    expect(again.err).toContain('f260430ef is out of the kiln already; saggar amend');
  });

  it('says what to do where none is', async () => {
    const folder = small();
    const line = ['p260302cd 6 first', '5 first', '3 first'];
    await run(unload, folder, { words: ['f260430ef'], options: { line } });
    const { status, err } = await run(unload, folder, { words: [], options: { line } });
    expect(status).toBe(2);
    expect(err).toContain('nothing is in a kiln; record a load with saggar add firings');
  });

  it.each([
    [['x99'], ['1 first'], 2, 'there is no record "x99"'],
    [['mug'], ['1 first'], 2, 'mug is a product, not a firing'],
    [['f260430ef'], [], 2, 'say what came out with --line'],
    [['f260320cd'], ['20 first'], 1, 'no line of firing f260320cd is still in the kiln'],
    [['f260320cd'], ['p260301ab 20 first'], 1, '"p260301ab" is out of firing f260320cd already'],
    [['f260430ef'], ['p260301ab 1 first'], 1, '"p260301ab" was not loaded in firing f260430ef'],
    [['f260430ef'], ['p260302cd'], 1, 'it does not say what came out'],
    [['f260430ef'], ['4 frist'], 1, 'did you mean "first"?'],
    [['f260430ef'], ['p260302cd 7 first'], 1, 'load-does-not-add-up error'],
  ])('refuses %j with %j', async (...[words, line, status, reason]) => {
    const folder = small();
    const said = await run(unload, folder, { words, options: { line } });
    expect([said.status, said.out]).toEqual([status, '']);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });
});
