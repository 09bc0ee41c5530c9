/** Ten lists as shops, card readers, banks and spreadsheets write them: what is said of each, and what it becomes. */
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeInList } from '../../src/commands/lists/take-in.ts';
import { run, type Said } from '../helpers/command-world.ts';
import { LIST_STUDIO } from '../helpers/list-studio.ts';
import { changes, tempStudio } from '../helpers/temp-studio.ts';

const LISTS = resolve(import.meta.dirname, '../lists');
const NAMES = readdirSync(LISTS);

function listOf(name: string): string {
  const file = readdirSync(join(LISTS, name)).find((each) => each.startsWith('list.')) ?? '';
  return join(LISTS, name, file);
}

function studioFor(name: string): string {
  return tempStudio({
    ...LIST_STUDIO,
    [`lists/${name}.yaml`]: readFileSync(join(LISTS, name, 'map.yaml'), 'utf8'),
  });
}

function taking(folder: string, name: string, options: object): Promise<Said> {
  const told = { words: [listOf(name)], options: { by: name, ...options }, today: '2026-07-02' };
  return run(takeInList, folder, told);
}

/** Without the place where this copy of the project lies. */
function plain({ status, out, err }: Said): string {
  return `${out}${err}exit ${String(status)}\n`.replaceAll(`${LISTS}/`, '');
}

describe.each(NAMES)('%s', (name) => {
  it('is shown, taken in whole or not at all, and harmless when taken in again', async () => {
    const folder = studioFor(name);
    const before = {
      ...LIST_STUDIO,
      [`lists/${name}.yaml`]: readFileSync(join(LISTS, name, 'map.yaml'), 'utf8'),
    };
    const looked = await taking(folder, name, {});
    expect(changes(folder, before)).toEqual({});
    const written = await taking(folder, name, { write: true });
    const texts = changes(folder, before);
    const again = await taking(folder, name, { write: true });
    expect(changes(folder, before)).toEqual(texts);
    const files = Object.entries(texts).map(([file, text = '']) => `--- ${file}\n${text}`);
    const parts = [plain(looked), plain(written), ...files, plain(again)];
    await expect(parts.join('\n')).toMatchFileSnapshot(join(LISTS, name, 'expected.txt'));
  });
});
