/** Looks whether a folder is free to be made a studio. */
import { readdirSync } from 'node:fs';

/** What may be in a folder that counts as empty: a repository that was begun for the studio. */
const MAY_BE_THERE: ReadonlySet<string> = new Set(['.git']);

/**
 * Why nothing new may be put into a folder, as a phrase that follows its name; undefined where it is
 * empty, has nothing but a repository in it, or isn't there yet.
 */
export function whyNotVacant(folder: string): string | undefined {
  try {
    const names = readdirSync(folder).filter((name) => !MAY_BE_THERE.has(name));
    return names.length === 0 ? undefined : `is not empty: it has ${someOf(names.sort())} in it`;
  } catch (error) {
    const { code } = error as { code?: string };
    if (code === 'ENOENT') return undefined;
    return code === 'ENOTDIR' ? 'is a file, or leads through one' : "can't be read";
  }
}

const MOST_NAMED = 3;

function someOf(names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  return names.slice(0, MOST_NAMED).join(', ') + (more > 0 ? ` and ${more} more` : '');
}
