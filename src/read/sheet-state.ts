/** Tells whether a tax sheet is a file of the studio's, and what state that file is in. */
import { digestOf } from '../digest.ts';
import { readSource } from './disk.ts';
import { SETTINGS_FILE } from './kinds.ts';

const ENDING = /\.(?:ya?ml|json)$/i;
const UPWARDS = /^[/\\]|^[A-Za-z]:|(?:^|[/\\])\.\.(?:[/\\]|$)/;

/** Whether a name is that of a file, and not the id of a sheet that comes with the program. */
export function isSheetFile(name: string): boolean {
  return ENDING.test(name) || name.includes('/');
}

/** Whether a path doesn't stay below the folder that it is named from. */
export function leadsUpwards(path: string): boolean {
  return UPWARDS.test(path);
}

/**
 * A fingerprint of the sheet that is named, else of the one in the studio's settings: what is kept of a
 * report is not to outlive a change of it. Undefined for one that comes with the program.
 */
export function sheetState(studioDir: string, named?: string): string | undefined {
  const file = named ?? namedInSettings(studioDir);
  if (file === undefined || !isSheetFile(file) || leadsUpwards(file)) return undefined;
  const source = readSource(studioDir, file);
  return 'text' in source ? digestOf(source.text) : undefined;
}

/** The same of every sheet of the studio's own that these files of filings name. */
export function filedSheetStates(studioDir: string, files: readonly string[]): readonly unknown[] {
  const names = files.flatMap((file) => {
    const source = readSource(studioDir, file);
    return 'text' in source ? [...source.text.matchAll(FILED)].map(([, , name]) => name) : [];
  });
  return [...new Set(names)].map((name) => sheetState(studioDir, name));
}

const FILED = /\bsheet["']?:[ \t]*(["']?)([^"',}\n#]*[^"',}\s#])/g;
const SETTING = /^tax-sheet:[ \t]*(["']?)(.*?)\1[ \t]*(?:#.*)?\r?$/m;

function namedInSettings(studioDir: string): string | undefined {
  const source = readSource(studioDir, SETTINGS_FILE);
  return 'text' in source ? SETTING.exec(source.text)?.[2] : undefined;
}
