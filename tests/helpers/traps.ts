/** A repository whose settings, attributes, hooks and variables all name programs that leave a mark. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFileSync, cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { commitAll, git, inGit } from './git.ts';
import { SMALL_STUDIO } from './small-studio.ts';
import { tempStudio } from './temp-studio.ts';
import {
  personalSettings,
  program,
  repositorySettings,
  variablesOf,
  type Site,
  type Variables,
} from './trap-settings.ts';
import { springsOf, type Spring } from './trap-springs.ts';

/** The repository with its traps. */
export interface Trapped {
  readonly studio: string;
  /** Where a program that was run, or a file that was written, leaves a mark by its class. */
  readonly marks: string;
  readonly variables: Variables;
  /** A commit whose materials are a content that only a repository elsewhere has. */
  readonly partial: string;
  /** Class → what of git does run its program. */
  readonly springs: Readonly<Record<string, Spring>>;
}

/** A small studio in such a repository, with a branch `work` on top of `main` and changed files. */
export function trappedStudio(): Trapped {
  const home = tempStudio({});
  const marks = join(home, 'marks');
  mkdirSync(marks);
  const trap = program(join(home, 'trap'), `: > "${marks}/$1"`);
  const pipe = program(join(home, 'pipe'), `: > "${marks}/$1"\ncat`);
  const studio = commits(home);
  const site = {
    home,
    marks,
    studio,
    trap: (name: string) => `${trap} ${name}`,
    pipe: (name: string) => `${pipe} ${name}`,
  };
  const partial = missingContent(studio);
  program(join(studio, 'git'), `: > "${marks}/path"`);
  change(studio);
  setTraps(site);
  return {
    studio,
    marks,
    variables: variablesOf(site),
    partial,
    springs: springsOf(site, partial),
  };
}

const CLOSED = 'closed-through: 2026-01-31\n';

/** A list of a shop, and the map by which it is taken in. */
const TAKEN_IN = {
  'list.csv': 'Order,Day,Item,Price\n1001,2026-04-20,mug,38.50\n',
  'lists/shop.yaml': `kind: sales
unique: Order
columns: { date: Day, product: Item, price: Price }
fixed: { channel: market, count: 1 }
`,
};

function commits(home: string): string {
  const settings = `${SMALL_STUDIO['studio.yaml'] ?? ''}${CLOSED}`;
  const studio = tempStudio({
    ...SMALL_STUDIO,
    ...TAKEN_IN,
    'studio.yaml': settings,
    'plain.late': 'x\n',
  });
  const other = inGit(tempStudio({ 'notes.txt': 'x\n' }));
  git(studio, 'init', '-q', '-b', 'main');
  commitAll(studio, 'Begin');
  const add = ['submodule', '--quiet', 'add', other, 'sub'];
  git(studio, '-c', 'protocol.file.allow=always', ...add);
  commitAll(studio, 'More');
  for (const [branch, price] of [
    ['other', '39.50'],
    ['work', '40.00'],
  ] as const) {
    git(studio, 'checkout', '-q', '-b', branch, 'main');
    edit(join(studio, 'products.yaml'), '38.50', price);
    commitAll(studio, `By ${branch}`);
  }
  sign(studio);
  // A repository beside it, for the variables that name another one.
  cpSync(other, join(home, 'other'), { recursive: true });
  return studio;
}

function edit(path: string, from: string, to: string): void {
  writeFileSync(path, readFileSync(path, 'utf8').replaceAll(from, to));
}

function change(studio: string): void {
  edit(join(studio, 'sales/2026-04.yaml'), 'price: 36', 'price: 37');
  edit(join(studio, 'products.yaml'), '44', '45');
  edit(join(studio, 'materials.yaml'), 'Cones', 'Big cones');
  edit(join(studio, 'kilns.yaml'), 'Rotunda', 'Old Rotunda');
  writeFileSync(join(studio, 'plain.late'), 'y\n');
}

/** Puts a commit with a signature on top of the branch. */
function sign(studio: string): void {
  const [head = '', rest = ''] = git(studio, 'cat-file', 'commit', 'HEAD').split('\n\n');
  const signature = '-----BEGIN PGP SIGNATURE-----\n \n x\n -----END PGP SIGNATURE-----';
  const id = store(studio, 'commit', `${head}\ngpgsig ${signature}\n\n${rest}`);
  git(studio, 'update-ref', 'refs/heads/work', id);
}

function store(studio: string, type: string, text: string): string {
  const words = ['hash-object', '-t', type, '-w', '--stdin', '--literally'];
  const run = spawnSync('git', words, { cwd: studio, input: text, encoding: 'utf8' });
  return run.stdout.trim();
}

/** A commit whose materials are a content that is not here. */
function missingContent(studio: string): string {
  const id = createHash('sha1').update('elsewhere').digest('hex');
  const settings = git(studio, 'rev-parse', 'main:studio.yaml').trim();
  const tree = spawnSync('git', ['mktree', '--missing'], {
    cwd: studio,
    input: `100644 blob ${settings}\tstudio.yaml\n100644 blob ${id}\tmaterials.yaml\n`,
    encoding: 'utf8',
  });
  return git(studio, 'commit-tree', tree.stdout.trim(), '-m', 'Elsewhere').trim();
}

const HOOKS = ['post-index-change', 'reference-transaction', 'pre-auto-gc', 'post-checkout'];

function setTraps({ home, marks, studio, trap, pipe }: Site): void {
  const inGitDir = join(studio, '.git');
  mkdirSync(join(home, 'hooks'));
  mkdirSync(join(inGitDir, 'hooks'), { recursive: true });
  for (const hook of HOOKS) {
    program(join(home, 'hooks', hook), `: > "${marks}/hooks-path-${hook}"`);
    program(join(inGitDir, 'hooks', hook), `: > "${marks}/hook-${hook}"`);
  }
  enoughToCollect(studio);
  writeFileSync(join(home, 'attributes'), '*.late filter=late\n');
  writeFileSync(join(home, 'included'), `[alias]\n\tincluded = !${trap('include')}\n`);
  writeFileSync(
    join(inGitDir, 'info/attributes'),
    '*.yaml filter=through diff=plain merge=own\nproducts.yaml filter=lasting\nkilns.yaml diff=shown\nmaterials.yaml diff=turned\n',
  );
  appendFileSync(join(inGitDir, 'config'), repositorySettings({ home, marks, studio, trap, pipe }));
  const ofModule = `[core]\n\tfsmonitor = ${trap('submodule')}\n`;
  appendFileSync(join(inGitDir, 'modules/sub/config'), ofModule);
  appendFileSync(
    join(home, 'other/.git/config'),
    `[core]\n\tfsmonitor = ${trap('repository-variables')}\n`,
  );
  mkdirSync(join(inGitDir, 'objects/info'), { recursive: true });
  writeFileSync(join(inGitDir, 'objects/info/alternates'), `${home}/other/.git/objects\n`);
  writeFileSync(join(home, 'global'), personalSettings({ marks, trap }, 'global'));
  writeFileSync(join(home, 'system'), personalSettings({ marks, trap }, 'system'));
  mkdirSync(join(home, 'exec'));
  program(join(home, 'exec/git-helped'), `: > "${marks}/exec-path"`);
}

/** Git looks at one folder of objects to tell whether there is much to collect. */
function enoughToCollect(studio: string): void {
  const isThere = (text: string): boolean =>
    createHash('sha1').update(`blob ${text.length}\0${text}`).digest('hex').startsWith('17');
  let [number, found] = [0, 0];
  while (found < 2) {
    number += 1;
    if (isThere(String(number))) found += Number(store(studio, 'blob', String(number)) !== '');
  }
}
