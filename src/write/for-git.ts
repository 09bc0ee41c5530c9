/** What a repository can have of this program: hooks and a workflow. */
import type { PackageFiles } from '../read/package.ts';
import type { FileToWrite } from './store.ts';

/** The parts that can be asked for. */
export const GIT_PARTS = ['hooks', 'workflow'] as const;

export type GitPart = (typeof GIT_PARTS)[number];

/** The folder of the hooks, from the root of the repository. */
export const HOOKS_FOLDER = '.githooks';

const WORKFLOWS = '.github/workflows';

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
  return Object.entries(originals).flatMap(([name, text]): FileToWrite[] => {
    const isHook = name.startsWith('hooks/');
    if (!parts.has(isHook ? 'hooks' : 'workflow')) return [];
    const path = pathOf(site.studio);
    const file = isHook ? hookFile(name, path) : workflowFile(path, site);
    const after = text.replace('<studio>', () => (isHook ? inShell(path) : inYaml(path)));
    return [{ file, before: site.textOf(file), after, executable: isHook }];
  });
}

/** The hook that git starts is the same for all studios of a repository; the file of each bears its path. */
function hookFile(name: string, path: string): string {
  const own = path === '.' ? 'studio' : encodeURIComponent(path);
  return `${HOOKS_FOLDER}/${name.replace(/^hooks\//, '').replace(/\/studio$/, () => `/${own}`)}`;
}

/** That of a second studio has another name, so that both run. */
function workflowFile(path: string, { textOf }: GitSite): string {
  const usual = `${WORKFLOWS}/saggar.yml`;
  const there = textOf(usual) ?? '';
  const isOfAnother =
    there.includes('\n  STUDIO: ') && !there.includes(`\n  STUDIO: ${inYaml(path)}\n`);
  return isOfAnother ? `${WORKFLOWS}/saggar-${path.replaceAll(/[^A-Za-z0-9]+/g, '-')}.yml` : usual;
}

/** Whether a change would write over what somebody has there. */
export function overwrites({ before, after }: FileToWrite): boolean {
  return before !== undefined && before !== after;
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
