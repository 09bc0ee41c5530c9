/** Settings and variables that name programs, each of which leaves a mark by the name of its class. */
import { chmodSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** Variables of the environment. */
export type Variables = Readonly<Record<string, string>>;

/** Where traps are laid. */
export interface Site {
  readonly home: string;
  readonly marks: string;
  readonly studio: string;
  /** The command that leaves a mark of that name. */
  readonly trap: (name: string) => string;
  /** The same, which hands its input on. */
  readonly pipe: (name: string) => string;
}

/** Makes a program of lines for the shell, and returns its path. */
export function program(path: string, lines: string): string {
  writeFileSync(path, `#!/bin/sh\n${lines}\n`);
  chmodSync(path, 0o755);
  return path;
}

const SHADOWED = ['rev-parse', 'ls-tree', 'cat-file', 'rev-list', 'merge-base', 'ls-files'];

/** What the repository itself is set to. */
export function repositorySettings({ home, trap, pipe }: Site): string {
  return `[alias]
	sprung = !${trap('alias')}
${SHADOWED.map((name) => `\t${name} = !${trap('alias')}`).join('\n')}
[core]
	fsmonitor = ${trap('fsmonitor')}
	hooksPath = ${home}/hooks
	sshCommand = ${trap('ssh')}
	askPass = ${home}/ask
	pager = ${trap('pager')}
	editor = ${trap('editor')}
	gitProxy = ${trapFile(home, 'proxy')}
	attributesFile = ${home}/attributes
	alternateRefsCommand = ${trap('alternates')}
	untrackedCache = true
	repositoryFormatVersion = 1
[extensions]
	partialClone = far
[remote "far"]
	url = "ext::${trap('promisor')}"
	promisor = true
[protocol "ext"]
	allow = always
[filter "through"]
	clean = ${pipe('filter-clean')}
	smudge = ${pipe('filter-smudge')}
[filter "lasting"]
	process = ${trap('filter-process')}
	required = true
[filter "late"]
	clean = ${pipe('attributes')}
[diff]
	external = ${trap('diff-external')}
[diff "shown"]
	command = ${trap('diff-command')}
[diff "turned"]
	textconv = ${trap('textconv')}
[merge "own"]
	driver = ${trap('merge')}
[log]
	showSignature = true
[gpg]
	program = ${trapFile(home, 'gpg')}
[credential]
	helper = !${trap('credential')}
[include]
	path = ${home}/included
[includeIf "gitdir:/"]
	path = ${home}/included
[gc]
	auto = 1
[submodule]
	recurse = true
`;
}

/** A program that is named without words leaves its mark by its own name. */
function trapFile(home: string, name: string): string {
  return program(join(home, name), `: > "${home}/marks/${name}"`);
}

/** What the person or the machine is set to. */
export function personalSettings(
  { marks, trap }: Pick<Site, 'marks' | 'trap'>,
  whose: string,
): string {
  return `[alias]
	of-${whose} = !${trap(`settings-${whose}`)}
[trace2]
	normalTarget = ${marks}/trace-settings-${whose}
	eventTarget = ${marks}/trace-settings-${whose}
[uploadpack]
	packObjectsHook = ${trap('pack-objects')}
`;
}

/** The variables of all classes at once. */
export function variablesOf({ home, marks, studio, trap }: Site): Variables {
  const other = join(home, 'other/.git');
  for (const name of ['ask', 'ask-variable', 'ssh-variable-program', 'proxy-variable'])
    trapFile(home, name);
  return {
    GIT_TRACE: `${marks}/trace-variable`,
    GIT_TRACE_SETUP: `${marks}/trace-variable`,
    GIT_TRACE2_EVENT: `${marks}/trace-variable`,
    ...namingOther(home),
    GIT_OBJECT_DIRECTORY: `${other}/objects`,
    GIT_ALTERNATE_OBJECT_DIRECTORIES: `${other}/objects`,
    GIT_QUARANTINE_PATH: `${other}/objects`,
    GIT_COMMON_DIR: other,
    GIT_NAMESPACE: 'x',
    GIT_PREFIX: 'x/',
    GIT_LITERAL_PATHSPECS: '0',
    GIT_CEILING_DIRECTORIES: studio,
    GIT_ATTR_SOURCE: 'work',
    GIT_EXEC_PATH: `${home}/exec`,
    GIT_TEMPLATE_DIR: `${home}/hooks`,
    GIT_EXTERNAL_DIFF: trap('external-diff-variable'),
    GIT_PAGER: trap('pager-variable'),
    PAGER: trap('pager-variable'),
    GIT_EDITOR: trap('editor-variable'),
    EDITOR: trap('editor-variable'),
    GIT_SSH: `${home}/ssh-variable-program`,
    GIT_SSH_COMMAND: trap('ssh-variable'),
    GIT_ASKPASS: `${home}/ask-variable`,
    SSH_ASKPASS: `${home}/ask-variable`,
    GIT_PROXY_COMMAND: `${home}/proxy-variable`,
    GIT_ALLOW_PROTOCOL: 'ext:file:ssh:git',
    GIT_CONFIG_COUNT: '1',
    GIT_CONFIG_KEY_0: 'alias.counted',
    GIT_CONFIG_VALUE_0: `!${trap('settings-variable')}`,
    GIT_CONFIG_PARAMETERS: `'alias.given'='!${trap('settings-parameters')}'`,
    GIT_CONFIG_GLOBAL: `${home}/global`,
    GIT_CONFIG_SYSTEM: `${home}/system`,
    PATH: ['', '.', studio, process.env['PATH'] ?? ''].join(delimiter),
  };
}

/** The variables that name the repository beside it. */
export function namingOther(home: string): Variables {
  return {
    GIT_DIR: join(home, 'other/.git'),
    GIT_WORK_TREE: join(home, 'other'),
    GIT_INDEX_FILE: join(home, 'other/.git/index'),
  };
}
