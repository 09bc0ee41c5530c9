/** Reads a tax sheet of the studio's own: a YAML or JSON file in its folder, with the reader of all files. */
import { existsSync, realpathSync } from 'node:fs';
import { sep } from 'node:path';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { Finding } from '../problem.ts';
import { readSource, unreadable } from './disk.ts';
import { parseText } from './parse.ts';
import { placesIn } from './spots.ts';
import type { RawMap } from './raw.ts';
import { scan } from './scan.ts';
import { leadsUpwards } from './sheet-state.ts';

/** A sheet's file as it was read. */
export interface SheetFile {
  readonly root: RawMap;
  /** The findings with their places in that text. */
  readonly located: (findings: readonly Finding[]) => readonly Finding[];
}

/**
 * Reads the file of that path from the studio's root; every scalar is the text that stands there.
 * Findings where it can't be read, is no YAML or JSON, or lies outside the studio. Never throws.
 */
export function readSheetFile(studioDir: string, file: string): SheetFile | readonly Finding[] {
  if (!isInside(studioDir, file)) return [outside(file)];
  if (!existsSync(`${studioDir}/${file}`)) return [unreadable(file, MISSING)];
  const source = readSource(studioDir, file);
  if (!('text' in source)) return [source];
  const { text } = source;
  const options = { numberKeys: NUMBER_KEYS };
  const scanned = scan(text, options);
  const { root, findings } = scanned
    ? { ...scanned, findings: [] }
    : parseText({ file, text }, options);
  if (findings.length > 0) return findings;
  return { root, located: (found) => found.map((each) => inPlace(each, file, text)) };
}

function inPlace(finding: Finding, file: string, text: string): Finding {
  return 'path' in finding.at ? { ...finding, at: placesIn(file, text)(finding.at) } : finding;
}

function isInside(studioDir: string, file: string): boolean {
  if (leadsUpwards(file)) return false;
  try {
    const root = realpathSync(studioDir);
    return realpathSync(`${studioDir}/${file}`).startsWith(root.endsWith(sep) ? root : root + sep);
  } catch {
    return true;
  }
}

const MISSING = {
  message: 'there is no such file in the studio',
  hint: "name it from the studio's folder, such as sheets/own.yaml",
};

function outside(file: string): Finding {
  return unreadable(file, {
    message: 'it lies outside the studio, and is not read',
    hint: "put the sheet into the studio's folder, and name it from there",
  });
}
