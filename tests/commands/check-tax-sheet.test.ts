import { writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { commitAll, git, inGit } from '../helpers/git.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const SOUND =
  'title: Own\nlines:\n  net-profit: { number: A1, title: Left, takes: [sales, other-income] }\n';

function settings(sheet: string): string {
  return `format: 1\nname: Hill\ncurrency: USD\ntax-sheet: ${sheet}\n`;
}

interface Found {
  readonly rows: readonly {
    readonly file: string;
    readonly line: number;
    readonly column: number;
    readonly rule: string;
    readonly message: string;
    readonly hint: string;
  }[];
}

/** What `check` says, a line each, without warnings of files that it does not know. */
async function problemsWith(sheet: string, files: Record<string, string> = {}): Promise<string[]> {
  const folder = tempStudio({ 'studio.yaml': settings(sheet), ...files });
  const { out } = await runCommand('check', { as: 'json' }, { folder });
  const { rows } = JSON.parse(out) as Found;
  return rows
    .filter(({ rule }) => rule !== 'stray-file')
    .map(({ file, line, column, rule, message, hint }) =>
      [`${file}:${String(line)}:${String(column)} ${rule}: ${message}`, hint].join(' | '),
    );
}

describe('check looks at the tax sheet of the settings', () => {
  it.each(['us-schedule-c', 'us-schedule-c-2025', 'uk-sa103s', 'plain'])(
    'and knows %s',
    async (id) => {
      expect(await problemsWith(id)).toEqual([]);
    },
  );

  it.each([
    ['us-schedule', 'there is no tax sheet "us-schedule" | did you mean us-schedule-c?'],
    ['plian', 'there is no tax sheet "plian" | did you mean plain?'],
    [
      'sheets/onw.yaml',
      "the tax sheet sheets/onw.yaml can't be used: there is no such file in the studio | did you mean sheets/own.yaml?",
    ],
    [
      'elsewhere.json',
      "the tax sheet elsewhere.json can't be used: there is no such file in the studio | name it from the studio's folder, such as sheets/own.yaml",
    ],
    [
      '../own.yaml',
      "the tax sheet ../own.yaml can't be used: it lies outside the studio, and is not read | put the sheet into the studio's folder, and name it from there",
    ],
  ])('and says at the setting that %s is none', async (name, words) => {
    const found = await problemsWith(name, { 'sheets/own.yaml': SOUND });
    expect(found).toEqual([`studio.yaml:4:12 tax-sheet: ${words}`]);
  });

  it('and names those of the program where none is near', async () => {
    const [found = ''] = await problemsWith('norway');
    expect(found).toContain('there are us-schedule-c, uk-sa103s, plain, uk-sa103s-2024');
  });

  it('and says what is wrong in a file, at its place there', async () => {
    const wrong = SOUND.replace('other-income', 'other-incom');
    expect(await problemsWith('own.yaml', { 'own.yaml': wrong })).toEqual([
      'own.yaml:3:57 tax-sheet: there is no amount "other-incom" | did you mean other-income?',
    ]);
    expect(await problemsWith('own.yaml', { 'own.yaml': 'lines: [1\n' })).toEqual([
      expect.stringMatching(/^own\.yaml:1:8 yaml-error: the bracket \[ is opened here/),
    ]);
    const json =
      '{ "title": "Own", "lines": {\n  "net-profit": { "number": "1", "title": "L" } }, "x": 1 }';
    expect(await problemsWith('own.json', { 'own.json': json })).toEqual([
      expect.stringMatching(/^own\.json:2:52 tax-sheet: a sheet has no field "x" here/),
    ]);
  });

  it('and knows the spending categories of the studio’s own there', async () => {
    const own = SOUND.replace('other-income', 'kiln-insurance');
    const studio = `${settings('own.yaml')}categories: { kiln-insurance: insurance }\n`;
    expect(await problemsWith('own.yaml', { 'own.yaml': own, 'studio.yaml': studio })).toEqual([]);
    expect(await problemsWith('own.yaml', { 'own.yaml': own })).toHaveLength(1);
  });

  it('and a review tells of a sheet that a branch breaks', async () => {
    const folder = inGit(tempStudio({ 'studio.yaml': settings('own.json'), 'own.json': '{}' }));
    const sound = '{ "title": "Own", "lines": { "net-profit": { "number": "1", "title": "L" } } }';
    writeFileSync(`${folder}/own.json`, sound);
    commitAll(folder, 'Mend');
    writeFileSync(`${folder}/own.json`, sound.replace('"number"', '"nubmer"'));
    commitAll(folder, 'Break');
    expect(git(folder, 'status', '--short')).toBe('');
    const review = await runCommand('review', {}, { folder, argument: 'HEAD~1..HEAD' });
    expect(review.out).toContain('own.json:1 tax-sheet error: a sheet has no field "nubmer" here');
    expect(review.out).toContain('did you mean number?');
    const mended = await runCommand('review', {}, { folder, argument: 'HEAD~2..HEAD~1' });
    expect(mended.out).toContain('0 new errors');
  });
});
