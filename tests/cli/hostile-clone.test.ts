/** A clone that wants to be believed, to run something or to hang: every command does as on a plain one. */
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { LINES as EVERY_LINE } from '../helpers/every-command.ts';
import { commitAll, git } from '../helpers/git.ts';
import { emptyFolder, runSaggar, type Ran } from '../helpers/program.ts';
import { SMALL_STUDIO } from '../helpers/small-studio.ts';
import { tempStudio } from '../helpers/temp-studio.ts';
import { some } from '../helpers/tier.ts';

const LINES = some(EVERY_LINE, 8);

const BAD_SALE = 's9: { date: 2026-04-20, channel: nowhere, lines: [] }\n';

/** A repository with a branch `work` on `main`, on which a fault comes in. */
function origin(extra: Readonly<Record<string, string>>): string {
  const folder = tempStudio({ ...SMALL_STUDIO });
  git(folder, 'init', '-q', '-b', 'main');
  commitAll(folder, 'Begin');
  git(folder, 'checkout', '-q', '-b', 'work');
  for (const [file, text] of Object.entries({ 'sales/2026-05.yaml': BAD_SALE, ...extra })) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), text, { mode: 0o755 });
  }
  git(folder, 'add', '-Af');
  git(folder, 'commit', '-qm', 'Sell');
  return folder;
}

/** Files that git would take for a repository of its own, with settings that run a program. */
function bareRepository(trap: string): Record<string, string> {
  const settings = `[core]
\trepositoryformatversion = 0
\tbare = false
\tworktree = .
\tfsmonitor = ${trap}
[filter "own"]
\tclean = ${trap}
\tsmudge = ${trap}
[diff]
\texternal = ${trap}
`;
  return {
    HEAD: 'ref: refs/heads/work\n',
    config: settings,
    'objects/info/packs': '\n',
    'refs/heads/none': '',
    '.gitattributes': '*.yaml filter=own diff=own merge=own\n',
    git: `#!/bin/sh\n${trap}\n`,
    node: `#!/bin/sh\n${trap}\n`,
  };
}

/** What an earlier version, or this one, would have remembered of a studio without a fault. */
async function memoryOfSoundStudio(home: string): Promise<Record<string, string>> {
  const folder = tempStudio({ ...SMALL_STUDIO });
  const cache = join(home, 'lies');
  for (const words of [['check'], ['day'], ['materials']])
    await runSaggar(words, { folder, env: { XDG_CACHE_HOME: cache } });
  const files: Record<string, string> = {};
  for (const name of readdirSync(cache, { recursive: true, encoding: 'utf8' }))
    files[`.saggar/${name}/x`] = 'no problems\n';
  return {
    ...files,
    '.saggar/cache': 'saggar-cache-1\n',
    '.saggar/lock': '{}',
    '.saggar/answers/state': '',
  };
}

interface Place {
  readonly folder: string;
  readonly env: Readonly<Record<string, string>>;
}

/** What each line says in a clone, asked twice where the first answer may be remembered. */
async function saidIn(from: string, { folder, env }: Place): Promise<Ran[]> {
  rmSync(folder, { recursive: true, force: true });
  git(dirname(folder), 'clone', '-q', '-b', 'work', from, folder);
  git(folder, 'branch', '-q', 'main', 'origin/main');
  const commits = git(folder, 'rev-list', '--all').trim().split('\n');
  const commit = new RegExp(
    commits.map((id) => `${id.slice(0, 7)}(?:${id.slice(7)})?`).join('|'),
    'g',
  );
  const said: Ran[] = [];
  for (const line of LINES) {
    const out = join(emptyFolder(), 'out');
    const words = line.map((word) => word.replace('PARTIAL', 'work').replace('OUT', out));
    const ran = await runSaggar(words, { folder, env });
    // Ids of new records end by chance, and commits of the two repositories have ids of their own.
    const text = ran.out.replaceAll(out, 'OUT').replaceAll(/\b([a-z]\d{6})[a-z]{2}\b/g, '$1');
    said.push({ ...ran, out: text.replaceAll(commit, 'COMMIT') });
    git(folder, 'checkout', '-q', '.');
  }
  return said;
}

it('every command says of a hostile clone what it says of a plain one, and runs nothing of it', async () => {
  const home = emptyFolder();
  const mark = join(home, 'mark');
  const trap = `touch ${mark}`;
  const hostile = { ...bareRepository(trap), ...(await memoryOfSoundStudio(home)) };
  const folder = join(home, 'clone');
  const env = {
    XDG_CACHE_HOME: join(home, 'cache'),
    XDG_STATE_HOME: join(home, 'state'),
    // As some have it: what stands in the folder comes first.
    PATH: `.:${process.env['PATH'] ?? ''}`,
  };
  const plain = await saidIn(origin({ '.gitattributes': '*.yaml text eol=lf\n' }), { folder, env });
  const said = await saidIn(origin(hostile), { folder, env });
  for (const [index, words] of LINES.entries()) {
    const [expected, got] = [plain[index], said[index]];
    const err = got?.err.replace(
      /^saggar: .*\.saggar is left over from an earlier version.*\n/m,
      '',
    );
    expect({ words, ...got, err }).toEqual({ words, ...expected });
  }
  expect(existsSync(mark)).toBe(false);
});
