/** What a repository can have of this program: hooks, a workflow, a setting for diffs. */
import type { PackageFiles } from '../read/package.ts';
import type { FileToWrite } from './store.ts';

/** The parts that can be asked for. */
export const GIT_PARTS = ['hooks', 'workflow', 'diff'] as const;

export type GitPart = (typeof GIT_PARTS)[number];

/** The folder of the hooks, from the root of the repository. */
export const HOOKS_FOLDER = '.githooks';

const WORKFLOW = '.github/workflows/saggar.yml';
const ATTRIBUTES = '.gitattributes';
const DIFF_LINE = '*.yaml diff=saggar';

/** Where the studio is, and what is there of the files by now. */
interface GitSite {
  /** Path of the studio from the root of the repository, without a slash at its end; empty for the root. */
  readonly studio: string;
  /** The text of a file by its path from the root; undefined where there is none. */
  readonly textOf: (file: string) => string | undefined;
}

/** The files of the parts, as changes from what is there, with paths from the root of the repository. */
export function gitChanges(
  parts: ReadonlySet<GitPart>,
  originals: PackageFiles,
  site: GitSite,
): readonly FileToWrite[] {
  const changes = Object.entries(originals).flatMap(([name, text]): FileToWrite[] => {
    const isHook = name.startsWith('hooks/');
    if (!parts.has(isHook ? 'hooks' : 'workflow')) return [];
    const file = isHook ? name.replace('hooks', HOOKS_FOLDER) : WORKFLOW;
    const path = pathOf(site.studio);
    const after = text.replace('<studio>', () => (isHook ? inShell(path) : inYaml(path)));
    return [{ file, before: site.textOf(file), after, executable: isHook }];
  });
  return parts.has('diff') ? [...changes, attributes(site)] : changes;
}

/** Whether a change would write over what somebody has there: lines may be added to attributes. */
export function overwrites({ file, before, after }: FileToWrite): boolean {
  return before !== undefined && before !== after && !file.endsWith(ATTRIBUTES);
}

// A path that begins with a dash would be taken for an option.
function pathOf(studio: string): string {
  if (studio === '') return '.';
  return studio.startsWith('-') ? `./${studio}` : studio;
}

function inShell(path: string): string {
  return /^[\w./-]+$/.test(path) ? path : `'${path.replaceAll("'", `'\\''`)}'`;
}

// In YAML a JSON text is a text in double quotes.
function inYaml(path: string): string {
  return /^[A-Za-z./][\w./-]*$/.test(path) ? path : JSON.stringify(path);
}

// The attributes beside the studio's files hold for them alone.
function attributes({ studio, textOf }: GitSite): FileToWrite {
  const file = studio === '' ? ATTRIBUTES : `${studio}/${ATTRIBUTES}`;
  const before = textOf(file);
  const lines = (before ?? '').split('\n').map((line) => line.trim());
  if (lines.includes(DIFF_LINE)) return { file, before, after: before };
  const gap = before === undefined || before === '' || before.endsWith('\n') ? '' : '\n';
  return { file, before, after: `${before ?? ''}${gap}${DIFF_LINE}\n` };
}
