/** A folder of files that lasts as long as one test. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

/** Makes a folder with files by their paths (a path that ends in a slash is an empty folder). */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'studio-')));
  onTestFinished(() => {
    rmSync(folder, { recursive: true, force: true });
  });
  for (const [file, content] of Object.entries(files)) put(folder, file, content);
  return folder;
}

/** Writes one file, with the folders on its way. */
export function put(folder: string, file: string, content: string | Uint8Array): void {
  const path = join(folder, file);
  mkdirSync(file.endsWith('/') ? path : dirname(path), { recursive: true });
  if (!file.endsWith('/')) writeFileSync(path, content);
}
