import { describe, expect, it } from 'vitest';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { runSaggar } from '../helpers/program.ts';
import { filesIn } from '../helpers/temp-studio.ts';
import { CONTROL_C, CONTROL_U, ENTER, HAS_PYTHON, answer, play } from './drive.ts';

describe.skipIf(!HAS_PYTHON)('an entry of its own kind', () => {
  it('ends a day at a fair', async () => {
    const fair = `k260430mt:
  date: 2026-04-30
  name: May eve
  channel: fee-market
  take:
    - { product: mug, count: 6 }
    - { product: mug, grade: second, count: 1 }
`;
    const channel = 'fee-market:\n  name: Fee market\n  kind: fair\n  fee-percent: 1.69%\n';
    const more = {
      'fairs/2026.yaml': fair,
      'channels.yaml': `${SMALL_STUDIO['channels.yaml'] ?? ''}\n${channel}`,
    };
    const [asked, byOptions] = [small(more), small(more)];
    const words = ['add', 'sales', '--closing', '--as-of', '2026-04-30', '--id', 's260430aa'];
    const steps = [
      ...answer('mug: 6 taken; came back: usual: 0', '7'),
      { see: '7 mug came back, but 6 were taken along' },
      { send: CONTROL_U },
      ...answer('mug: 6 taken; came back: usual: 0', '2'),
      ...answer('mug second: 1 taken; came back: usual: 0', '1'),
      ...answer('Cash in the box now', '90'),
      ...answer('in the morning: usual: 0.00', '20'),
      ...answer("reader's total of the day: usual: 0.00", '40'),
      // 4 × 38.50 = 154.00; 90 − 20 + 40 = 110.00.
      { see: 'There should be 154.00, and there is 110.00: 44.00' },
      ...answer('mug: 4 gone at 38.50; sold: usual: 4', '3'),
      { see: '- { product: mug, count: 3, price: 38.50 }' },
      ...answer('mug: 1 gone; missing: usual: 1', ''),
      ...answer('5.50 short; discount to write', '5.50'),
      ...answer('Save, change or discard?', ''),
    ];
    const played = await play(asked, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    const told = ['--back', '2 mug', '--back', '1 mug second', '--cash', '90', '--float', '20'];
    const fate = ['--card', '40', '--sold', '3 mug', '--missing', '1 mug', '--discount', '5.50'];
    expect(await runSaggar([...words, ...told, ...fate], { folder: byOptions })).toMatchObject({
      status: 0,
    });
    expect(filesIn(asked)).toEqual(filesIn(byOptions));
    expect(filesIn(asked)['sales/2026-04.yaml']).toContain('  discount: 5.50\n  card: 40.00\n');
    expect(filesIn(asked)['pieces/p260301ab.yaml']).toContain('how: missing, fair: k260430mt');
  });

  it('asks how much of a sale was by card where the channel takes a fee', async () => {
    const channel = 'fee-market:\n  name: Fee market\n  kind: fair\n  fee-percent: 1.69%\n';
    const folder = small({ 'channels.yaml': channel + (SMALL_STUDIO['channels.yaml'] ?? '') });
    const steps = [
      ...answer('before the first sale', ''),
      ...answer('    - ', '2 mug'),
      ...answer('this sale 77.00 USD', ''),
      ...answer('By card', '77.01'),
      { see: '77.01 went by card, but the sale comes to 77.00' },
      { send: CONTROL_U },
      ...answer('By card', '40'),
      ...answer('Cash in the box now', ''),
      ...answer('Save, change or discard?', ''),
    ];
    const words = [
      'add',
      'sales',
      '--as-of',
      '2026-05-01',
      '--date',
      '2026-05-01',
      '--channel',
      'fee-market',
    ];
    const played = await play(folder, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['sales/2026-05.yaml']).toContain('  card: 40\n');
  });

  it('empties a kiln lot by lot', async () => {
    const [asked, byOptions] = [small(), small()];
    const steps = [
      ...answer('Did all 14 come out good?', ''),
      ...answer('6 bowl p260302cd: lost', '7'),
      { see: 'only 6 went in' },
      { send: CONTROL_U },
      ...answer('>     - { lot: p260302cd, in: 6, first: 6, lost: usual: 0 }', '2'),
      ...answer('>     - { lot: p260302cd, in: 6, first: 4, lost: 2, why:  }', '1 warped'),
      ...answer('first: 4, lost: 2, why: { warped: 1,  } }', ''),
      ...answer('5 evening-class: lost', 'good'),
      ...answer('3 a neighbour: lost', ''),
      ...answer('Save, change or discard?', ''),
    ];
    const words = ['unload', 'f260430ef', '--as-of', '2026-05-01'];
    const played = await play(asked, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    const lines = ['4 first 2 lost 1 warped', '5 first', '3 first'];
    const options = lines.flatMap((line) => ['--line', line]);
    expect(await runSaggar([...words, ...options], { folder: byOptions })).toMatchObject({
      status: 0,
    });
    expect(filesIn(asked)).toEqual(filesIn(byOptions));
    expect(filesIn(asked)).not.toEqual(SMALL_STUDIO);
  });

  it('takes out what left without a sale', async () => {
    const [asked, byOptions] = [small(), small()];
    const steps = [
      ...answer('Why', 'brok'),
      ...answer('usual: 2026-05-01', 'yesterday'),
      { see: '1 mug sea-green second' },
      { send: `90 mug${ENTER}` },
      { see: '! ' },
      { send: `1 mug second${ENTER}` },
      { see: '- { date: 2026-04-30, count: 1, how: broken, grade: second }' },
      { send: ENTER },
      ...answer('Note', 'fell over'),
      { see: 'mug seconds in the studio 1 → 0' },
      ...answer('Save, change or discard?', ''),
    ];
    const words = ['gone', '--as-of', '2026-05-01'];
    const env = { LANG: 'C.UTF-8' };
    const played = await play(asked, words, { steps, env });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    const said = ['1 mug second', '--why', 'broken', '--date', 'yesterday', '--note', 'fell over'];
    expect(await runSaggar([...words, ...said], { folder: byOptions })).toMatchObject({
      status: 0,
    });
    expect(filesIn(asked)).toEqual(filesIn(byOptions));
    expect(filesIn(asked)).not.toEqual(SMALL_STUDIO);
  });

  it('writes a new version of a recipe', async () => {
    const [asked, byOptions] = [small(), small()];
    const steps = [
      ...answer('Recipe', 'sea-green'),
      ...answer('usual: 2026-05-01', ''),
      ...answer('> Change: ', 'kaolin 20'),
      { see: '{ material: kaolin, parts: 20 }' },
      { send: ENTER },
      ...answer('Note', ''),
      ...answer('Save, change or discard?', ''),
    ];
    const words = ['revise', '--as-of', '2026-05-01'];
    const played = await play(asked, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    const said = ['revise', 'sea-green', 'kaolin 20', '--as-of', '2026-05-01'];
    expect(await runSaggar(said, { folder: byOptions })).toMatchObject({ status: 0 });
    expect(filesIn(asked)).toEqual(filesIn(byOptions));
    expect(filesIn(asked)).not.toEqual(SMALL_STUDIO);
  });

  it.each([
    ['no', '', SMALL_STUDIO['recipes.yaml']],
    ['yes', 'yes', SMALL_STUDIO['recipes.yaml']?.replace('parts: 40', 'parts: 41')],
  ])('asks before a recipe changes that was mixed: %s', async (_how, typed, recipes) => {
    const folder = small();
    const ends = typed === '' ? [] : answer('Save, change or discard?', '');
    const steps = [...answer('Change it all the same?', typed), ...ends];
    const words = ['amend', 'sea-green', 'versions.1.base.2.parts=41', '--as-of', '2026-05-01'];
    const played = await play(folder, words, { steps });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    expect(filesIn(folder)['recipes.yaml']).toBe(recipes);
  });

  it('offers a name that acts on a terminal in signs that do not', async () => {
    const name = 'name: "M\\e[5;31mine\\u202e\\u200b\\a"';
    const acting = (file: string, old: string): Record<string, string> => ({
      [file]: (SMALL_STUDIO[file] ?? '').replace(`name: ${old}`, name),
    });
    const folder = small({
      ...acting('channels.yaml', 'Market'),
      ...acting('products.yaml', 'Mug'),
    });
    const steps = [
      ...answer('date: usual: 2026-05-01', ''),
      { see: 'market   M\\u{1B}[5;31mine\\u{202E}\\u{200B}\\u{7}' },
      { send: ENTER },
      ...answer('before the first sale', '40'),
      { see: 'Lines' },
      { send: '1 m\u200b' },
      { see: '1 m\\u{200B}' },
      { send: CONTROL_C },
    ];
    const played = await play(folder, ['add', 'sales', '--as-of', '2026-05-01'], { steps });
    expect(played).toMatchObject({ fault: null, status: 130, restored: true });
    // eslint-disable-next-line no-control-regex -- they are what is looked for
    expect(played.output).not.toMatch(/\u001b\[5;31m|[\u0007\u202e\u200b]/);
  });
});
