import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addRecords } from '../../src/commands/records/add.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { remove } from '../../src/commands/records/remove.ts';
import { init } from '../../src/commands/studio/init.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit } from '../helpers/git.ts';
import {
  openEditor,
  type Editor,
  type Offered,
  type Position,
} from '../helpers/language-server.ts';
import { SMALL_STUDIO } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { writeStudio, type StudioFolder } from '../helpers/write-studio.ts';

const OWN: Readonly<Record<string, string>> = {
  ...SMALL_STUDIO,
  'studio.yaml': `${SMALL_STUDIO['studio.yaml'] ?? ''}categories: { lamp-oil: "22" }\n`,
};

const IDS = '.schema/ids.json';

async function studioWithEditor(files: Readonly<Record<string, string>> = OWN): Promise<string> {
  const folder = tempStudio(files);
  await withEditor(folder);
  return folder;
}

async function withEditor(folder: string): Promise<string> {
  const { status, out, err } = await run(init, folder, {
    words: ['.'],
    options: { with: 'editor' },
  });
  expect({ status, err }).toEqual({ status: 0, err: '' });
  return out;
}

function read(folder: string, file: string): string {
  return readFileSync(join(folder, file), 'utf8');
}

/** The map in the settings that were written: files made by hand have no line that names their schema. */
function schemasIn(folder: string): Record<string, string[]> {
  const settings = JSON.parse(read(folder, '.vscode/settings.json')) as {
    'yaml.schemas': Record<string, string[]>;
  };
  return settings['yaml.schemas'];
}

let opened = 0;

/** A file of the kind that nothing but the settings leads to a schema, and where its mark ‸ stands. */
async function openAt(
  editor: Editor,
  kind: string,
  text: string,
): Promise<{ file: string; at: Position; found: readonly string[] }> {
  const before = text.slice(0, text.indexOf('‸')).split('\n');
  const at = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  const file = `${kind}/by-hand/${++opened}.yaml`;
  const found = await editor.diagnose(file, text.replace('‸', ''));
  return { file, at, found: found.map(({ message }) => message) };
}

async function hoverAt(editor: Editor, kind: string, text: string): Promise<string> {
  const { file, at } = await openAt(editor, kind, text);
  return (await editor.hover(file, at)).replaceAll('&nbsp;', ' ');
}

async function offersAt(editor: Editor, kind: string, text: string): Promise<readonly Offered[]> {
  const { file, at } = await openAt(editor, kind, text);
  return editor.offers(file, at);
}

describe('an editor on a studio with its ids, in files made by hand', () => {
  let studio: StudioFolder;
  let editor: Editor;

  beforeAll(async () => {
    studio = writeStudio(OWN);
    await withEditor(studio.folder);
    editor = await openEditor(studio.folder, schemasIn(studio.folder));
  });

  afterAll(async () => {
    await editor.close();
    studio.remove();
  });

  it.each([
    ['firings', 'f1:\n  kiln: rot‸unda\n', 'Rotunda', 'Id of the kiln'],
    ['sales', 's1:\n  lines:\n    - product: m‸ug\n', 'Mug', 'Id of the product'],
    ['used', 'u1:\n  material: buff-stone‸ware\n', 'Buff stoneware', 'Id of the material'],
  ])('tells over a reference in %s what it names, and what the field is', async (...asked) => {
    const [kind, text, name, about] = asked;
    const shown = await hoverAt(editor, kind, text);
    expect(shown).toContain(`#### ${name}`);
    expect(shown).toContain(about);
    expect(shown).not.toContain('A letter, then letters');
  });

  it('tells of a lot its product and day', async () => {
    const load = 'f1:\n  load:\n    - lot: p2603‸01ab\n';
    expect(await hoverAt(editor, 'firings', load)).toMatch(/#### mug, 2026-03-01/);
  });

  it.each([
    ['firings', 'f1:\n  kiln: ‸\n', 'rotunda', 'Rotunda'],
    ['sales', 's1:\n  channel: ‸\n', 'market', 'Market'],
    ['spent', 'e1:\n  for: ‸\n', 'lamp-oil', 'a category of your own'],
  ])('offers in %s the ids of the studio with their names', async (...asked) => {
    const [kind, text, label, documentation] = asked;
    const offered = await offersAt(editor, kind, text);
    expect(offered).toContainEqual(expect.objectContaining({ label, documentation }));
    expect(offered.map((each) => each.label)).not.toContain('tenmoku');
  });

  it('offers the spending categories, and the words beside ids', async () => {
    const labels = async (kind: string, text: string): Promise<string[]> =>
      (await offersAt(editor, kind, text)).map(({ label }) => label);
    expect(await labels('spent', 'e1:\n  for: ‸\n')).toEqual(
      expect.arrayContaining(['booth', 'kiln-parts', 'sales-tax']),
    );
    expect(await labels('used', 'u1:\n  for: ‸\n')).toEqual(
      expect.arrayContaining(['waste', 'gift']),
    );
  });

  it('takes an id that its list does not have', async () => {
    const { found } = await openAt(
      editor,
      'used',
      'u1:\n  date: 2026-04-01\n  material: not-yet-listed‸\n  quantity: 2 kg\n',
    );
    expect(found).toEqual([]);
  });

  it.each([
    ['an id', 'u1:\n  date: 2026-04-01\n  material: two words‸\n  quantity: 2 kg\n', 'An id is'],
    ['a day', 'u1:\n  date: 1.4.2026‸\n  material: a\n  quantity: 2 kg\n', 'year-month-day'],
    ['an amount', 'u1:\n  date: 2026-04-01\n  material: a\n  quantity: 2 kgs‸\n', '4 x 25 lb'],
  ])('says in words, and by an example, what %s is', async (...[, text, words]) => {
    const { found } = await openAt(editor, 'used', text);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(words);
    expect(found[0]).toContain('For example: ');
    expect(found[0]).not.toMatch(/pattern|\^|\[0-9\]/);
  });
});

describe('the ids that an editor is offered', () => {
  it('follow the records that commands write', async () => {
    const folder = await studioWithEditor();
    const words = ['products', '--name', 'Jug', '--price', '40'];
    expect((await run(addRecords, folder, { words })).status).toBe(0);
    const lot = ['pieces', '--product', 'jug', '--made', '6'];
    expect((await run(addRecords, folder, { words: lot })).status).toBe(0);
    const editor = await openEditor(folder, schemasIn(folder));
    const products = await offersAt(editor, 'pieces', 'p1:\n  product: ‸\n');
    expect(products).toContainEqual(
      expect.objectContaining({ label: 'jug', documentation: 'Jug' }),
    );
    const lots = await offersAt(editor, 'firings', 'f1:\n  load:\n    - lot: ‸\n');
    await editor.close();
    expect(lots[0]).toMatchObject({ label: 'p260501bb', documentation: 'jug, 2026-05-01' });
    expect(lots.map(({ label }) => label)).toContain('p260301ab');
    const renamed = { words: ['jug', 'name=Big jug'] };
    expect((await run(amend, folder, renamed)).status).toBe(0);
    expect(read(folder, IDS)).toContain('Big jug');
    expect((await run(remove, folder, { words: ['p260501bb'] })).status).toBe(0);
    expect(read(folder, IDS)).not.toContain('p260501bb');
    expect(read(folder, IDS)).toContain('p260301ab');
  });

  it('have what was written by hand, of the definitions', async () => {
    const folder = await studioWithEditor();
    const kilns = `${OWN['kilns.yaml'] ?? ''}\nshed:\n  name: Shed kiln\n  fuel: wood\n`;
    writeFileSync(join(folder, 'kilns.yaml'), kilns);
    await useKaolin(folder);
    expect(read(folder, IDS)).toContain('Shed kiln');
  });

  it('are written by no command where nobody asked for them', async () => {
    const folder = tempStudio({ ...OWN, '.schema/used.json': '{}' });
    await useKaolin(folder);
    expect(existsSync(join(folder, IDS))).toBe(false);
  });

  it('stay as they are where they did not change, or can not be read', async () => {
    const folder = await studioWithEditor();
    const before = read(folder, IDS);
    await useKaolin(folder);
    expect(read(folder, IDS)).toBe(before);
    writeFileSync(join(folder, IDS), 'not JSON');
    await useKaolin(folder);
    expect(read(folder, IDS)).toBe('not JSON');
    rmSync(join(folder, IDS));
    mkdirSync(join(folder, IDS));
    await useKaolin(folder);
  });

  it('are not for git', async () => {
    const folder = inGit(tempStudio({ ...OWN, '.gitignore': 'notes/' }));
    await withEditor(folder);
    expect(read(folder, '.gitignore')).toBe('notes/\n.schema/\n');
    expect(git(folder, 'status', '--porcelain')).not.toContain('.schema');
    expect(await withEditor(folder)).toBe('All of it is there already.\n');
  });
});

async function useKaolin(folder: string): Promise<void> {
  const words = ['used', '--material', 'kaolin', '--quantity', '1 kg'];
  expect(await run(addRecords, folder, { words })).toMatchObject({ status: 0, err: '' });
}

describe("an editor's settings that somebody has", () => {
  const mine = '{\n  // mine\n  "editor.tabSize": 4\n}\n';

  it('are left as they are, and what they lack is said', async () => {
    const folder = tempStudio({ ...OWN, '.vscode/settings.json': mine });
    const out = await withEditor(folder);
    expect(read(folder, '.vscode/settings.json')).toBe(mine);
    expect(out).toContain('.vscode/settings.json is yours and was left as it is. Add to it:\n{\n');
    expect(out).toContain(
      '    ".schema/sales.json": [\n      "sales.yaml",\n      "sales/**/*.yaml"',
    );
    expect(existsSync(join(folder, '.zed/settings.json'))).toBe(true);
  });

  it('need nothing more once they have it', async () => {
    const folder = await studioWithEditor();
    const settings = {
      'editor.tabSize': 4,
      'yaml.schemas': { ...schemasIn(folder), 'a.json': [] },
    };
    writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify(settings));
    expect(await withEditor(folder)).toBe('All of it is there already.\n');
  });
});
