/** Studios in folders of their own that are gone when the test is over. */
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';

const EXAMPLE = fileURLToPath(new URL('../../example-studio', import.meta.url));

/** A new folder with files: path from it → text. */
export function tempStudio(files: Readonly<Record<string, string>>): string {
  const folder = tempFolder();
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), text);
  }
  return folder;
}

/** A copy of the example studio. */
export function exampleCopy(): string {
  const folder = tempFolder();
  // Other tests may just be writing to its cache.
  const filter = (path: string): boolean => !path.includes('.saggar');
  cpSync(EXAMPLE, folder, { recursive: true, filter });
  return folder;
}

/** Every file below a folder, dot-folders left out: path → text; as `latin1` with a sign for each byte. */
export function filesIn(
  folder: string,
  encoding: 'utf8' | 'latin1' = 'utf8',
): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .map((name) => name.split(sep).join('/'))
    .filter((name) => !/(^|\/)\./.test(name));
  return Object.fromEntries(
    names.sort().map((name) => [name, readFileSync(join(folder, name), encoding)]),
  );
}

/** What changed in a folder: path → its new text, undefined where it is gone. */
export function changes(
  folder: string,
  before: Readonly<Record<string, string>>,
): Record<string, string | undefined> {
  const after = filesIn(folder);
  const names = new Set([...Object.keys(before), ...Object.keys(after)]);
  return Object.fromEntries(
    [...names].filter((name) => before[name] !== after[name]).map((name) => [name, after[name]]),
  );
}

function tempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'saggar-test-'));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  return folder;
}
