/** Commands of git itself that run into the traps, to show that each of them would leave its mark. */
import { spawnSync } from 'node:child_process';
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { tempStudio } from './temp-studio.ts';
import { namingOther, variablesOf, type Site, type Variables } from './trap-settings.ts';

/** A command of git that runs into a trap. */
export interface Spring {
  readonly words: readonly string[];
  readonly variables?: Variables;
  readonly input?: string;
  /** Whether it is run at a terminal. */
  readonly atTerminal?: boolean;
}

/** Class → what of git runs its program; `partial` is a commit of which a content is not here. */
export function springsOf(site: Site, partial: string): Readonly<Record<string, Spring>> {
  const { home } = site;
  const all = variablesOf(site);
  const only = (...names: string[]): Variables =>
    Object.fromEntries(names.map((name) => [name, all[name] ?? '']));
  const sales = 'sales/2026-04.yaml';
  const asking = { words: ['credential', 'fill'], input: 'protocol=https\nhost=x.invalid\n\n' };
  return {
    alias: { words: ['sprung'] },
    'filter-clean': { words: ['add', sales] },
    'filter-smudge': { words: ['checkout', 'main', '--', sales] },
    'filter-process': { words: ['add', 'products.yaml'] },
    attributes: { words: ['add', 'plain.late'] },
    textconv: { words: ['diff', '--no-ext-diff', '--', 'materials.yaml'] },
    'diff-external': { words: ['diff', '--', sales] },
    'diff-command': { words: ['diff', '--', 'kilns.yaml'] },
    'external-diff-variable': { words: ['diff', sales], variables: only('GIT_EXTERNAL_DIFF') },
    merge: { words: ['merge-tree', '--write-tree', 'work', 'other'] },
    fsmonitor: { words: ['status'] },
    submodule: { words: ['status'] },
    'hooks-path-reference-transaction': { words: ['update-ref', 'refs/heads/new', 'HEAD'] },
    'hooks-path-post-index-change': { words: ['update-index', '--really-refresh'] },
    'hook-reference-transaction': {
      words: ['-c', 'core.hooksPath=.git/hooks', 'update-ref', 'refs/heads/new', 'HEAD'],
    },
    'hooks-path-pre-auto-gc': { words: ['gc', '--auto'] },
    gpg: { words: ['log', '-1', 'work'] },
    ssh: { words: ['fetch', 'ssh://x.invalid/y'] },
    'ssh-variable': { words: ['fetch', 'ssh://x.invalid/y'], variables: only('GIT_SSH_COMMAND') },
    'ssh-variable-program': {
      words: ['ls-remote', 'ssh://x.invalid/y'],
      variables: { ...only('GIT_SSH'), GIT_DIR: `${home}/other/.git` },
    },
    proxy: { words: ['fetch', 'git://x.invalid/y'] },
    'proxy-variable': {
      words: ['fetch', 'git://x.invalid/y'],
      variables: only('GIT_PROXY_COMMAND'),
    },
    credential: asking,
    ask: asking,
    'ask-variable': { ...asking, variables: only('GIT_ASKPASS') },
    pager: { words: ['log'], atTerminal: true },
    'pager-variable': { words: ['log'], atTerminal: true, variables: only('GIT_PAGER') },
    editor: { words: ['branch', '--edit-description'] },
    'editor-variable': { words: ['branch', '--edit-description'], variables: only('GIT_EDITOR') },
    include: { words: ['included'] },
    protocol: { words: ['fetch', `ext::${site.trap('protocol')}`] },
    promisor: { words: ['cat-file', '-p', `${partial}:materials.yaml`] },
    alternates: { words: ['fetch', `${home}/other`] },
    'pack-objects': {
      words: ['clone', '--no-local', `${home}/other`, 'cloned'],
      variables: only('GIT_CONFIG_GLOBAL'),
    },
    'trace-variable': { words: ['version'], variables: only('GIT_TRACE') },
    'trace-settings-global': { words: ['version'], variables: only('GIT_CONFIG_GLOBAL') },
    'trace-settings-system': { words: ['version'], variables: only('GIT_CONFIG_SYSTEM') },
    'repository-variables': { words: ['status'], variables: namingOther(home) },
    'exec-path': { words: ['helped'], variables: only('GIT_EXEC_PATH') },
    'settings-variable': {
      words: ['counted'],
      variables: only('GIT_CONFIG_COUNT', 'GIT_CONFIG_KEY_0', 'GIT_CONFIG_VALUE_0'),
    },
    'settings-parameters': { words: ['given'], variables: only('GIT_CONFIG_PARAMETERS') },
    'settings-global': { words: ['of-global'], variables: only('GIT_CONFIG_GLOBAL') },
    'settings-system': { words: ['of-system'], variables: only('GIT_CONFIG_SYSTEM') },
    path: { words: ['version'], variables: only('PATH') },
  };
}

/** Runs git into a trap, in a copy of the repository. */
export function spring(studio: string, { words, variables = {}, input, atTerminal }: Spring): void {
  const copy = join(tempStudio({}), 'copy');
  cpSync(studio, copy, { recursive: true, verbatimSymlinks: true });
  const program = atTerminal ? 'python3' : 'git';
  const who = ['-c', 'user.name=Test', '-c', 'user.email=test@example.org', ...words];
  const script = `import pty, sys; pty.spawn(sys.argv[1:])`;
  spawnSync(program, atTerminal ? ['-c', script, 'git', ...who] : who, {
    cwd: copy,
    env: { ...process.env, GIT_TERMINAL_PROMPT: '0', TERM: 'xterm', ...variables },
    input: input ?? '',
  });
}
