/** Whose a file or folder is, as a name that a person knows. */
import { closeSync, openSync, readSync } from 'node:fs';

/** Where a system lists its users, each in a line: name, password, number (passwd(5)). */
const USERS = '/etc/passwd';
const MOST_READ = 1024 * 1024;

/** A user's name; the number where the system's list has none for it. */
export function userName(uid: number): string {
  const line = usersOf(USERS).find((each) => each.split(':')[2] === String(uid));
  return line?.split(':')[0] ?? `user ${uid}`;
}

function usersOf(file: string): readonly string[] {
  try {
    const handle = openSync(file, 'r');
    try {
      const bytes = Buffer.alloc(MOST_READ);
      return bytes.toString('utf8', 0, readSync(handle, bytes)).split('\n');
    } finally {
      closeSync(handle);
    }
  } catch {
    return [];
  }
}
