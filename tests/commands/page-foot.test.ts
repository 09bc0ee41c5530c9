import { appendFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesDigest } from '../../src/read/kept/fingerprint.ts';
import { git, inGit } from '../helpers/git.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';

/** What the foot of a page says. */
async function footOf(folder: string, command = 'recipes', at?: string): Promise<string> {
  const options = { as: 'html', ...(at === undefined ? {} : { at }) };
  const { out } = await runCommand(command, options, { folder });
  return /<footer>\s*<p>([^<]*)/.exec(out)?.[1] ?? '';
}

const DIGEST = /The digest of its files is ([0-9a-f]{12}): the same files give the same signs\.$/;

async function digestIn(folder: string, command?: string): Promise<string | undefined> {
  return DIGEST.exec(await footOf(folder, command))?.[1];
}

describe("a page's foot", () => {
  it('has one digest for the same files, wherever they are and however often they were read', async () => {
    const [one, other] = [exampleCopy(), exampleCopy()];
    for (const file of readdirSync(join(other, 'sales')).toReversed()) {
      const path = join(other, 'sales', file);
      const text = readFileSync(path);
      rmSync(path);
      writeFileSync(path, text);
    }
    const digest = await digestIn(one);
    expect(digest).toMatch(/^[0-9a-f]{12}$/);
    expect(await digestIn(one)).toBe(digest);
    expect(await digestIn(other)).toBe(digest);
    for (const command of ['day', 'check']) expect(await digestIn(other, command)).toBe(digest);
  });

  it('has another digest after any change, and the first one again without it', async () => {
    const folder = exampleCopy();
    const [before, file] = [await digestIn(folder), join(folder, 'recipes.yaml')];
    const text = readFileSync(file);
    appendFileSync(file, '# a remark\n');
    expect(await digestIn(folder)).not.toBe(before);
    writeFileSync(file, text);
    expect(await digestIn(folder)).toBe(before);
  });

  it('names the commit instead, where the book is of one', async () => {
    const folder = inGit(exampleCopy());
    git(folder, 'tag', 'then');
    expect(await footOf(folder, 'recipes', 'then')).toMatch(/, at then \([0-9a-f]{7}\)\.$/);
  });
});

describe('a digest of files', () => {
  it('goes by paths and contents and by no order, and counts sheets in', () => {
    const files = [
      { file: 'a.yaml', content: 'x' },
      { file: 'b.yaml', content: 'y' },
    ];
    const sheet = { file: 'sheet.yaml', content: { root: {}, text: 'lines:' } };
    const digest = filesDigest(files, []);
    expect(filesDigest(files.toReversed(), [])).toBe(digest);
    expect(
      filesDigest(
        files.map(({ file }) => ({ file, content: 'x' })),
        [],
      ),
    ).not.toBe(digest);
    expect(filesDigest(files, [sheet])).not.toBe(digest);
  });
});
