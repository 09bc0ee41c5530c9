/** Looks back through the commits of a studio's settings. */
import { SETTINGS_FILE } from '../kinds.ts';
import { scan } from '../yaml/scan.ts';
import type { Repository } from './repository.ts';
import { askGit } from './run.ts';

/** A setting as a commit has it; undefined where it is not there or can't be read. */
interface PastSetting {
  readonly commit: string;
  readonly value: string | undefined;
}

/** The values of a setting from the last commit backwards, commit by commit that touched the settings. */
export function* settingHistory(repository: Repository, key: string): Generator<PastSetting> {
  const path = `${repository.prefix}${SETTINGS_FILE}`;
  const commits = askGit(repository, ['rev-list', 'HEAD', '--', path]) ?? '';
  for (const commit of commits.split('\n').filter((line) => line !== '')) {
    const text = askGit(repository, ['cat-file', 'blob', `${commit}:${path}`]);
    const value =
      text === undefined ? undefined : scan(text, { numberKeys: NO_NUMBER_KEYS })?.root[key];
    yield { commit, value: typeof value === 'string' ? value : undefined };
  }
}

const NO_NUMBER_KEYS: ReadonlySet<string> = new Set();
