import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { remove } from '../../src/commands/records/remove.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit } from '../helpers/git.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { changes, filesIn, tempStudio } from '../helpers/temp-studio.ts';

describe('remove', () => {
  it('takes a record out and leaves every other byte', async () => {
    const folder = small();
    const { status, out } = await run(remove, folder, { words: ['s260401ab'] });
    expect(status).toBe(0);
    expect(out).toContain('mug in the studio 11 → 13');
    const text = SMALL_STUDIO['sales/2026-04.yaml'] ?? '';
    const [, after = ''] = text.split('# the big one');
    expect(changes(folder, SMALL_STUDIO)).toEqual({
      'sales/2026-04.yaml': `# April\n\n# the big one${after}`,
    });
  });

  it('takes the file with it that held nothing else', async () => {
    const folder = small();
    const { status, out } = await run(remove, folder, { words: ['f260430ef'] });
    expect(status).toBe(0);
    expect(out).toContain('Removed f260430ef, and with it firings/f260430ef.yaml.');
    expect(changes(folder, SMALL_STUDIO)).toEqual({ 'firings/f260430ef.yaml': undefined });
  });

  it('takes a file with it that only names its schema beside, and no other comment', async () => {
    const line = '# yaml-language-server: $schema=../.schema/used.json\n';
    const used = 'u1:\n  date: 2026-04-01\n  material: kaolin\n  quantity: 1 kg\n';
    for (const [head, left] of [
      [line, undefined],
      [`${line}# April\n`, `${line}# April\n`],
    ]) {
      const files = { ...SMALL_STUDIO, 'used/2026-04.yaml': `${head ?? ''}\n${used}` };
      const folder = tempStudio(files);
      expect((await run(remove, folder, { words: ['u1'] })).status).toBe(0);
      expect(changes(folder, files)).toEqual({ 'used/2026-04.yaml': left });
    }
  });

  it('refuses what others name, and says where', async () => {
    const folder = small();
    const { status, out, err } = await run(remove, folder, { words: ['p260301ab'] });
    expect([status, out]).toEqual([1, '']);
    expect(err).toContain('firings/f260310ab.yaml:8:14 in-use error: f260310ab names p260301ab');
    expect(err).toContain('p260301ab is named in f260310ab and f260320cd');
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('removes it all the same when told so', async () => {
    const folder = small();
    const options = { evenIfUsed: true };
    const { status, err } = await run(remove, folder, { words: ['p260301ab'], options });
    expect(status).toBe(0);
    expect(err).toContain('unknown-reference error');
    expect(changes(folder, SMALL_STUDIO)).toEqual({ 'pieces/p260301ab.yaml': undefined });
  });

  it('prints with --dry-run what git apply does', async () => {
    const folder = inGit(small());
    for (const id of ['s260401ab', 'f260430ef']) {
      const { out } = await run(remove, folder, { words: [id], options: { dryRun: true } });
      const wet = small();
      await run(remove, wet, { words: [id] });
      execFileSync('git', ['apply', '-'], { cwd: folder, input: out });
      expect(filesIn(folder)).toEqual(filesIn(wet));
      git(folder, 'checkout', '-q', '--', '.');
    }
  });
});
