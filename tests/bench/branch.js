/** A grown studio in git, with a branch that changes twenty files of it. */
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** What is changed in so many of the latest files of a folder; each change means something. */
const CHANGES = [
  { kind: 'sales', files: 6, from: /price: (\d+)/, to: 'price: 1$1' },
  { kind: 'spent', files: 4, from: /amount: (\d+)/, to: 'amount: 1$1' },
  { kind: 'pieces', files: 5, from: /made: (\d+)/, to: 'made: 1$1' },
  { kind: 'firings', files: 5, from: /\n {2}kiln:/, to: '\n  note: looked at again\n  kiln:' },
];

/** What the branch leaves from. */
export const BASE = 'main';

/**
 * The studio's copy in git, on a branch of its own, made once.
 * @param {string} folder of the studio
 * @returns {string}
 */
export function branchOf(folder) {
  const copy = `${folder}-branch`;
  if (existsSync(join(copy, '.git/whole'))) return copy;
  rmSync(copy, { recursive: true, force: true });
  cpSync(folder, copy, { recursive: true });
  git(copy, 'init', '-q', '-b', BASE);
  commitAll(copy, 'Ten years');
  git(copy, 'checkout', '-q', '-b', 'week');
  for (const change of CHANGES) changeFiles(copy, change);
  commitAll(copy, 'A week');
  writeFileSync(join(copy, '.git/whole'), '');
  return copy;
}

/** @type {(folder: string, message: string) => void} */
function commitAll(folder, message) {
  git(folder, 'add', '-A');
  git(folder, 'commit', '-q', '-m', message);
}

/** @type {(folder: string, change: (typeof CHANGES)[number]) => void} */
function changeFiles(folder, { kind, files, from, to }) {
  const names = readdirSync(join(folder, kind)).sort().slice(-files);
  for (const name of names) {
    const path = join(folder, kind, name);
    const text = readFileSync(path, 'utf8');
    const changed = text.replace(from, to);
    if (changed === text) throw new Error(`nothing to change in ${path}`);
    writeFileSync(path, changed);
  }
}

/** @type {(folder: string, ...words: string[]) => void} */
function git(folder, ...words) {
  const who = ['-c', 'user.name=Bench', '-c', 'user.email=bench@example.org'];
  execFileSync('git', [...who, ...words], { cwd: folder, stdio: ['ignore', 'ignore', 'inherit'] });
}
