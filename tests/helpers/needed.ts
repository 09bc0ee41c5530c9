/** Programs that tests run beside ours, and the user that they run as where a superuser sees nothing. */
import { spawnSync } from 'node:child_process';
import { lchownSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { isMainThread } from 'node:worker_threads';

/** Whether a program is on this machine; where not, its tests are skipped, which is said aloud. */
export function isInstalled(program: string): boolean {
  const found = isThere(program);
  if (!found) console.warn(`${program} is not installed: its tests are SKIPPED`);
  return found;
}

/** The same of a program that CI has to have: with CI set its lack is a failure, and nothing is skipped. */
export function needed(...anyOf: readonly [string, ...string[]]): boolean {
  const found = anyOf.some(isThere);
  if (!found && (process.env['CI'] ?? '') !== '')
    throw new Error(`CI needs ${anyOf.join(' or ')}, and it is not installed`);
  return found || isInstalled(anyOf[0]);
}

function isThere(program: string): boolean {
  return spawnSync('sh', ['-c', `command -v ${program}`]).status === 0;
}

/** A user who owns nothing. */
export const NOBODY = 65534;

/** Whether this user may do everything, so that it sees nothing refused. */
export const IS_ROOT = process.getuid?.() === 0;

/** Whether something can be looked at as another user; a thread, in which mutants are tested, has none of its own. */
export const MAY_BE_PLAIN = !IS_ROOT || isMainThread;

/** Makes a folder and all in it that user's. */
export function give(path: string, user: number): void {
  lchownSync(path, user, user);
  for (const entry of readdirSync(path, { withFileTypes: true })) {
    const inner = join(path, entry.name);
    if (entry.isDirectory()) give(inner, user);
    else lchownSync(inner, user, user);
  }
}

/** Looks at something as a user who may not do everything: a superuser becomes nobody, who owns the folder meanwhile. */
export function asPlainUser<T>(folder: string, look: () => T): T {
  if (!IS_ROOT) return look();
  give(folder, NOBODY);
  process.seteuid?.(NOBODY);
  try {
    return look();
  } finally {
    process.seteuid?.(0);
    give(folder, 0);
  }
}
