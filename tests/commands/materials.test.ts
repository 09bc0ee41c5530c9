import { describe, expect, it } from 'vitest';
import { runCommand } from '../helpers/studio-commands.ts';

describe('saggar materials', () => {
  it.each([
    [{ year: '2026' }, undefined, '--year goes with --where only'],
    [{ from: '2026-01-01' }, undefined, '--from goes with --where only'],
    [{ to: '2026-01-31' }, 'kaolin', '--to goes with --where only'],
    [{ from: '2026-01-01' }, undefined, 'use --as-of, for the days that usage is measured over'],
    [{ where: true, window: '30' }, undefined, '--where measures no usage; leave out --window'],
    [{ window: '30' }, 'kaolin', '--window is of all materials; leave it out, or leave out kaolin'],
    [{ where: true }, 'kaolin', '--where is of all materials; leave out kaolin'],
  ])('refuses %j %s, which it would pass over', async (options, argument, words) => {
    const scene = argument === undefined ? {} : { argument };
    const { status, out, complaints } = await runCommand('materials', options, scene);
    expect([status, out]).toEqual([2, '']);
    expect(complaints).toContain(words);
  });

  it.each([
    [{ where: true, year: '2026' }, undefined],
    [{ where: true, from: '2026-01-01', to: '2026-03-31' }, undefined],
    [{ window: '30', asOf: '2026-03-31' }, undefined],
    [{ asOf: '2026-03-31' }, 'kaolin'],
  ])('takes %j %s', async (options, argument) => {
    const scene = argument === undefined ? {} : { argument };
    expect((await runCommand('materials', options, scene)).status).toBe(0);
  });
});
