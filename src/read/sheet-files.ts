/** Finds the files of a studio that may be tax sheets of its own. */
import { readdirSync, type Dirent } from 'node:fs';
import { readSource } from './disk.ts';
import { SETTINGS_FILE, kindOfPath } from './kinds.ts';
import { isSheetFile } from './sheet-state.ts';

/**
 * Paths from the studio's root of the YAML and JSON files outside the folders of records that have a
 * word in them, in their order. Folders whose name begins with a dot and `node_modules` are passed
 * over, and links are not followed.
 */
export function sheetFiles(studioDir: string, word: string): string[] {
  return filesBelow(studioDir, '').filter((file) => {
    const source = readSource(studioDir, file);
    return 'text' in source && source.text.includes(word);
  });
}

function filesBelow(studioDir: string, folder: string): string[] {
  return entriesOf(`${studioDir}/${folder}`).flatMap((entry) => {
    const { name } = entry;
    const path = `${folder}${name}`;
    if (name.startsWith('.') || name === 'node_modules' || kindOfPath(path)) return [];
    if (entry.isDirectory()) return filesBelow(studioDir, `${path}/`);
    return entry.isFile() && isSheetFile(name) && path !== SETTINGS_FILE ? [path] : [];
  });
}

function entriesOf(folder: string): Dirent[] {
  try {
    return readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch {
    return [];
  }
}
