/** The forms in which hosts of repositories and editors take problems. */
import { READER_RULES, RULES } from '../check/rules.ts';
import type { Problem } from '../problem.ts';
import { repositoryAround } from '../read/git/around.ts';
import type { Printable } from '../render/printable.ts';
import { annotations, sarif } from '../render/sarif.ts';

/** In which form, and of which studio. */
export interface Wanted {
  readonly as: 'sarif' | 'annotations';
  readonly folder: string;
}

/** The problems in that form, with paths from the root of the repository that the studio is in. */
export function forPrograms(problems: readonly Problem[], { as, folder }: Wanted): Printable {
  const prefix = repositoryAround(folder)?.prefix ?? '';
  if (as === 'annotations') return annotations(problems, prefix);
  return sarif(problems, { rules: [...READER_RULES, ...RULES], prefix });
}
