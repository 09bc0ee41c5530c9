/** Tells whether anything in a repository's own folder was touched. */
import { lstatSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

/** All that lies in a repository's own folder: path → size and times, of the index its bytes too. */
export function gitState(studio: string): Readonly<Record<string, string>> {
  const gitDir = join(studio, '.git');
  const paths = readdirSync(gitDir, { recursive: true, encoding: 'utf8' }).sort();
  return Object.fromEntries(
    paths.map((path) => {
      const { size, mtimeMs, ctimeMs, mode } = lstatSync(join(gitDir, path));
      const bytes = /(^|\/)(index|config|HEAD)$/.test(path)
        ? readFileSync(join(gitDir, path), 'base64')
        : '';
      return [path, [size, mtimeMs, ctimeMs, mode, bytes].join(' ')];
    }),
  );
}
