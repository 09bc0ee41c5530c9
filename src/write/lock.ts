/** One writer at a time: a lock file in the studio, which nobody has to clear away after a crash. */
import { closeSync, openSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { codeOf, unlinkQuietly, userName } from './disk.ts';
import { lookAt, type LockOwner, type SeenLock, type SeenOther } from './lock-file.ts';
import type { Refused } from './parts.ts';

/** The process that wants to write; the command line fills it in, since only it looks at the machine. */
export interface Writer {
  readonly pid: number;
  readonly host: string;
  /** The user's number, where the system has such numbers. */
  readonly uid?: number | undefined;
  /** Whether a process of this machine is there, be it another user's. */
  readonly isRunning: (pid: number) => boolean;
  /** A moment as the person's clock shows it, from milliseconds since 1970: `2026-03-08 14:32`. */
  readonly timeOf: (milliseconds: number) => string;
  /** How long to wait for another writer, in milliseconds; absent means 3,000. */
  readonly patience?: number;
  /** The person's folder in which it is noted what is being written; absent where there is none. */
  readonly stateFolder?: string | undefined;
  /** The lock that is held by now, or why none is; absent where a write takes its own. */
  readonly held?: () => Lock | Refused | undefined;
  /** Is told, in one sentence each, what was done about a change that was left half done. */
  readonly tell?: (line: string) => void;
}

/** A lock that is held. */
export interface Lock {
  /** The studio that it is of, every link followed. */
  readonly studio: string;
  readonly release: () => void;
}

/** The lock's name in a studio; git is told to ignore it. */
const LOCK_FILE = '.saggar-lock';

const CLAIM = `${LOCK_FILE}-`;
const PATIENCE = 3000;
/** From so many on a lock that is gone again each time is waited for like any other. */
const MOST_TRIES = 100;
/** How long what says nothing is taken for a lock that is just being filled, which takes microseconds. */
const GRACE = 2000;
/** How long what is no lock may be one that is just being filled. */
const MOMENT = 1000;
/** How old a lock must be to be cleared if its owner can't be asked: a write takes a moment. */
const LONGEST_WAIT = 600_000;

/**
 * Takes the studio's lock: a file that is made only where there is none, with the writer's process
 * number, machine and start in it. Waits for a running writer as long as the writer's patience
 * lasts, then refuses; refuses at once where something lies there that can't be a lock. The lock of
 * a process that is gone is cleared; one whose owner can't be asked (another machine's, say) once it
 * is ten minutes old.
 * @param studio the studio's folder, every link followed
 * @throws what the file system throws, as on a full disk
 */
export async function takeLock(studio: string, writer: Writer): Promise<Lock | Refused> {
  const file = join(studio, LOCK_FILE);
  const me = { pid: writer.pid, host: writer.host, started: processStart(writer.pid) };
  const patience = writer.patience ?? PATIENCE;
  for (let [waited, tries] = [0, 0]; ; tries += 1) {
    if (make(file, me)) return held(studio, me, writer);
    const cleared = clearStale(studio, me, writer) && tries < MOST_TRIES;
    const refused = cleared ? undefined : whyNot(studio, writer, waited);
    if (refused && (refused.isFinal || waited >= patience)) return { refused: refused.why };
    // Uneven pauses, so that two that wait don't stay in step.
    const pause = cleared ? 1 : 10 + ((writer.pid * 7 + waited) % 17);
    await sleep(pause);
    waited += pause;
  }
}

function held(studio: string, me: LockOwner, writer: Writer): Lock {
  const file = join(studio, LOCK_FILE);
  const now = lookAt(file)?.made ?? 0;
  for (const claim of claimsIn(studio)) clear(join(studio, claim), now, writer);
  return {
    studio,
    release: () => {
      if (isHeldBy(lookAt(file), me)) unlinkQuietly(file);
    },
  };
}

function isHeldBy(seen: ReturnType<typeof lookAt>, me: LockOwner): boolean {
  if (!seen || 'other' in seen || !seen.owner) return false;
  const { pid, host, started } = seen.owner;
  return pid === me.pid && host === me.host && started === me.started;
}

// Makes the file with its owner in it, unless something is there already.
function make(file: string, owner: LockOwner): boolean {
  let handle;
  try {
    handle = openSync(file, 'wx');
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
  try {
    writeFileSync(handle, JSON.stringify(owner));
  } catch (error) {
    unlinkQuietly(file);
    throw error;
  } finally {
    closeSync(handle);
  }
  return true;
}

/**
 * Clears the lock if its owner is gone. Two that both find it so must not both clear it: the slower
 * would clear the quicker's new lock. So each first makes a claim under a name of its own, and only
 * one that sees no other claim goes on; as every one looks after it has claimed, two can't both see
 * none. A claim that somebody was killed with is cleared as a lock is, at the latest by the next
 * writer.
 */
function clearStale(studio: string, me: LockOwner, writer: Writer): boolean {
  const lock = join(studio, LOCK_FILE);
  const seen = lookAt(lock);
  if (!seen || 'other' in seen) return !seen;
  if (honouredFor(seen, writer) === Infinity) return false;
  const name = CLAIM + [me.host, me.pid, me.started].join('-').replaceAll(/[^\w-]/g, '_');
  const claim = join(studio, name);
  unlinkQuietly(claim);
  if (!make(claim, me)) return false;
  try {
    const now = lookAt(claim)?.made ?? 0;
    const rivals = claimsIn(studio).filter((each) => each !== name);
    if (rivals.some((rival) => !clear(join(studio, rival), now, writer))) return false;
    return clear(lock, now, writer);
  } finally {
    unlinkQuietly(claim);
  }
}

function claimsIn(studio: string): readonly string[] {
  return readdirSync(studio).filter((each) => each.startsWith(CLAIM));
}

// Clears a lock or claim that may be cleared; true where none is there afterwards.
function clear(file: string, now: number, writer: Writer): boolean {
  const seen = lookAt(file);
  if (!seen) return true;
  // A claim is never anything else for longer than it takes to fill it.
  if ('other' in seen) return Math.abs(now - seen.made) > GRACE;
  if (now - seen.made < honouredFor(seen, writer)) return false;
  unlinkQuietly(file);
  return lookAt(file) === undefined;
}

// How long after it was made a lock or claim is honoured, in milliseconds; without end while its owner runs.
function honouredFor({ owner, isEmpty }: SeenLock, writer: Writer): number {
  if (!owner) return isEmpty ? GRACE : LONGEST_WAIT;
  const isThere = isRunning(owner, writer);
  if (isThere === undefined) return LONGEST_WAIT;
  return isThere ? Infinity : -Infinity;
}

/** Whether the process that made a lock or a note is still there; undefined where nobody can tell. */
export function isRunning(owner: LockOwner, writer: Writer): boolean | undefined {
  if (owner.host !== writer.host) return undefined;
  if (!writer.isRunning(owner.pid)) return false;
  const started = processStart(owner.pid);
  return started === '' || owner.started === '' ? undefined : started === owner.started;
}

/**
 * When a process started, as Linux tells it: the machine's start and the clock ticks since (field 22
 * of /proc/PID/stat, proc(5)). Empty elsewhere.
 */
export function processStart(pid: number): string {
  try {
    const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The second field, the program's name in brackets, may hold blanks and brackets itself.
    const ticks = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19];
    return ticks === undefined ? '' : `${boot}-${ticks}`;
  } catch {
    return '';
  }
}

/** Why the lock can't be had by now; final where waiting would not help. */
function whyNot(
  studio: string,
  writer: Writer,
  waited: number,
): { readonly why: string; readonly isFinal: boolean } | undefined {
  const file = join(studio, LOCK_FILE);
  const seen = lookAt(file);
  if (!seen || !('other' in seen)) return { why: busyText(studio, writer), isFinal: false };
  const mayBeFilled = seen.other === 'a file' && waited < MOMENT;
  return mayBeFilled ? undefined : { why: otherText(file, seen, writer), isFinal: true };
}

/** Speaks of the lock, or where that may be cleared, of the claim of somebody else who is about to. */
function busyText(studio: string, writer: Writer): string {
  for (const name of [LOCK_FILE, ...claimsIn(studio)]) {
    const file = join(studio, name);
    const seen = lookAt(file);
    if (!seen || 'other' in seen || seen.isEmpty) continue;
    const who = seen.owner ? ` (process ${seen.owner.pid} on ${seen.owner.host})` : '';
    const honoured = honouredFor(seen, writer);
    if (honoured === Infinity) return `another command${who} ${BUSY}`;
    if (honoured > 0) return `another command${who} ${boundText(file, seen.made, writer)}`;
  }
  return `another command ${BUSY}`;
}

const BUSY = 'is writing to the studio: try again in a moment';

function boundText(file: string, made: number, { timeOf }: Writer): string {
  const [since, until] = [made, made + LONGEST_WAIT].map(timeOf);
  return `has been writing to the studio since ${since}: ${file} is honoured until ${until}; if no one is writing any more, delete it to go on at once`;
}

function otherText(file: string, { other, made, uid }: SeenOther, { timeOf }: Writer): string {
  return `${file} is in the way: it is ${other} and not a lock of this program (of ${userName(uid)}, since ${timeOf(made)}); it may be deleted`;
}
