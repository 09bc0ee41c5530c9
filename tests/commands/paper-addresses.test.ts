/** Addresses of buyers: on papers, and nowhere else. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadCommand } from '../../src/commands/load.ts';
import { run } from '../helpers/command-world.ts';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { memoryForTests } from '../helpers/memory.ts';
import { said, shop } from '../helpers/paper-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

describe('addresses of buyers', () => {
  const BUYERS =
    'puddle:\n  name: puddle  coffee\n  address: [4 Mill Lane, Secretstoke]\n  note: ring twice\n';

  it('are on papers, and without one lines are left open', async () => {
    const folder = shop({ 'buyers.yaml': BUYERS });
    const { out } = await said(folder, ['paper', 'invoice', 's260410aa']);
    expect(out).toContain('To\nPuddle Coffee\n4 Mill Lane\nSecretstoke\n\nINVOICE');
    const none = await said(shop(), ['paper', 'invoice', 's260410aa']);
    expect(none.out).toMatch(/To\nPuddle Coffee\n_+\n_+\n_+\n/);
    expect(none.err).not.toContain('buyers');
  });

  it('are in no export, memory or review, and no problem to check', async () => {
    const folder = inGit(shop({ 'buyers.yaml': BUYERS }));
    git(folder, 'branch', '-M', 'main');
    git(folder, 'checkout', '-qb', 'more');
    writeFileSync(join(folder, 'buyers.yaml'), BUYERS.replace('4 Mill', '5 Mill'));
    commitAll(folder, 'Moved');
    const memory = mkdtempSync(join(tmpdir(), 'saggar-addresses-'));
    const place = { ...memoryForTests(), folder: memory };
    const told = { memory: place };
    const export_ = await run(await loadCommand('export'), folder, {
      ...told,
      words: [join(memory, 'out')],
      options: { archive: join(memory, 'out.zip') },
    });
    expect(export_.err + export_.out).not.toContain('buyers');
    for (const [command, words] of [
      ['check', []],
      ['paper', ['invoice', 's260410aa']],
      ['review', ['main']],
    ] as const) {
      const { out, err } = await run(await loadCommand(command), folder, { ...told, words });
      if (command !== 'paper') expect(out + err).not.toMatch(/Secretstoke|Mill Lane|buyers/);
    }
    const kept = readdirSync(memory, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => readFileSync(join(entry.parentPath, entry.name), 'latin1'));
    expect(kept.some((text) => text.includes('Puddle Coffee'))).toBe(true);
    expect(kept.filter((text) => /Secretstoke|Mill Lane/.test(text))).toEqual([]);
    rmSync(memory, { recursive: true, force: true });
  });

  it('are left out of git by what init writes, and a studio that does not is told', async () => {
    const folder = inGit(shop({ 'buyers.yaml': BUYERS }));
    const { err } = await said(folder, ['paper', 'invoice', 's260410aa']);
    expect(err).toContain('add the line /buyers.yaml to .gitignore');
    writeFileSync(join(folder, '.gitignore'), '/buyers.yaml\n');
    expect((await said(folder, ['paper', 'invoice', 's260410aa'])).err).not.toContain('gitignore');
    const made = join(tempStudio({}), 'new');
    await said(join(made, '..'), ['init', made]);
    expect(readFileSync(join(made, '.gitignore'), 'utf8')).toContain('\n/buyers.yaml\n');
  });

  it('are not typed with add, which says where they go', async () => {
    const { err, status } = await said(shop(), ['add', 'buyers'], { input: false });
    expect(status).toBe(2);
    expect(err).toContain('write them into buyers.yaml');
  });

  it.each([
    ['puddle: Mill Lane\n', 'buyers.yaml:1:9', 'a buyer has a name and an address'],
    ['puddle:\n  name: P\n  adress: [a]\n', 'buyers.yaml:3:3', 'did you mean "address"?'],
    ['puddle:\n  address: [a]\n', 'buyers.yaml:1:1', 'its name is missing'],
    ['puddle: [\n', 'buyers.yaml:', ''],
  ])('that are wrong are told of with their place: %j', async (text, place, words) => {
    const folder = shop({ 'buyers.yaml': text });
    const { out, err, status } = await said(folder, ['paper', 'invoice', 's260410aa']);
    expect([status, out]).toEqual([1, '']);
    expect(err).toContain(place);
    expect(err).toContain(words);
  });
});
