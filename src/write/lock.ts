/** One writer at a time: a lock file in the studio, which nobody has to clear away after a crash. */
import {
  closeSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { codeOf, unlinkQuietly } from './disk.ts';
import type { Refused } from './parts.ts';

/** The process that wants to write; the command line fills it in, since only it looks at the machine. */
export interface Writer {
  readonly pid: number;
  readonly host: string;
  /** Whether a process of this machine is there, be it another user's. */
  readonly isRunning: (pid: number) => boolean;
  /** How long to wait for another writer, in milliseconds; absent means 3,000. */
  readonly patience?: number;
}

/** A lock that is held. */
export interface Lock {
  readonly release: () => void;
}

/** Who made a lock. */
interface Owner {
  readonly pid: number;
  readonly host: string;
  /** Tells a process from a later one of the same number; empty where the system doesn't say. */
  readonly started: string;
}

/** The program's own folder in a studio: readers skip it, and so does git. */
export const OWN_FOLDER = '.saggar';

const LOCK = 'lock';
const CLAIM = 'lock-claim-';
const PATIENCE = 3000;
/** How old a lock must be to be cleared if it says nothing: between making and filling it come microseconds. */
const GRACE = 2000;
/** How old a lock must be to be cleared if its owner can't be asked: a write takes a moment. */
const LONGEST = 600_000;

/**
 * Takes the studio's lock: a file that is made only where there is none, with the writer's process
 * number, machine and start in it. Waits for a running writer as long as the writer's patience
 * lasts, then refuses. The lock of a process that is gone is cleared; one whose owner can't be asked
 * (another machine's, say) once it is ten minutes old.
 * @param studio the studio's folder
 * @throws what the file system throws, as on a full disk
 */
export async function takeLock(studio: string, writer: Writer): Promise<Lock | Refused> {
  const folder = join(studio, OWN_FOLDER);
  if (!makeOwnFolder(folder)) return { refused: `${OWN_FOLDER} in the studio is not a folder` };
  const file = join(folder, LOCK);
  const me = { pid: writer.pid, host: writer.host, started: startOf(writer.pid) };
  const patience = writer.patience ?? PATIENCE;
  for (let waited = 0; ;) {
    if (make(file, me))
      return {
        release: () => {
          release(file, me);
        },
      };
    if (clearStale(folder, me, writer)) continue;
    if (waited >= patience) return { refused: busyText(file) };
    // Uneven pauses, so that two that wait don't stay in step.
    const pause = 10 + ((writer.pid * 7 + waited) % 17);
    await sleep(pause);
    waited += pause;
  }
}

function makeOwnFolder(folder: string): boolean {
  const made = mkdirQuietly(folder);
  if (made) writeFileSync(join(folder, '.gitignore'), '*\n');
  return made || lstatSync(folder).isDirectory();
}

function mkdirQuietly(folder: string): boolean {
  try {
    mkdirSync(folder);
    return true;
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  }
}

// Makes the file with its owner in it, unless it is there already.
function make(file: string, owner: Owner): boolean {
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

function release(file: string, me: Owner): void {
  const owner = ownerOf(file);
  if (owner?.pid === me.pid && owner.host === me.host && owner.started === me.started)
    unlinkQuietly(file);
}

/**
 * Clears the lock if its owner is gone. Two that both find it so must not both clear it: the slower
 * would clear the quicker's new lock. So each first makes a claim under a name of its own, and only
 * one that sees no other claim goes on; as every one looks after it has claimed, two can't both see
 * none.
 */
function clearStale(folder: string, me: Owner, writer: Writer): boolean {
  const lock = join(folder, LOCK);
  if (clearableAfter(lock, writer) === Infinity) return false;
  const name = CLAIM + [me.host, me.pid, me.started].join('-').replaceAll(/[^\w-]/g, '_');
  const claim = join(folder, name);
  unlinkQuietly(claim);
  make(claim, me);
  try {
    const now = statSync(claim).mtimeMs;
    const rivals = readdirSync(folder).filter((each) => each.startsWith(CLAIM) && each !== name);
    if (rivals.some((rival) => !clear(join(folder, rival), now, writer))) return false;
    return clear(lock, now, writer);
  } finally {
    unlinkQuietly(claim);
  }
}

// Clears a lock or claim that may be cleared; true where it is gone afterwards.
function clear(file: string, now: number, writer: Writer): boolean {
  const made = statSync(file, { throwIfNoEntry: false })?.mtimeMs;
  if (made === undefined) return true;
  if (now - made < clearableAfter(file, writer)) return false;
  unlinkQuietly(file);
  return statSync(file, { throwIfNoEntry: false }) === undefined;
}

// The age in milliseconds from which on a lock or claim may be cleared; infinite while its owner runs.
function clearableAfter(file: string, writer: Writer): number {
  const owner = ownerOf(file);
  if (!owner) return GRACE;
  if (owner.host !== writer.host) return LONGEST;
  if (!writer.isRunning(owner.pid)) return -Infinity;
  const started = startOf(owner.pid);
  if (started === '' || owner.started === '') return LONGEST;
  return started === owner.started ? Infinity : -Infinity;
}

/** The owner that a lock names; undefined where it names none or is gone. */
function ownerOf(file: string): Owner | undefined {
  try {
    const owner: unknown = JSON.parse(readFileSync(file, 'utf8'));
    return isOwner(owner) ? owner : undefined;
  } catch {
    return undefined;
  }
}

function isOwner(value: unknown): value is Owner {
  if (typeof value !== 'object' || value === null) return false;
  const { pid, host, started } = value as Record<keyof Owner, unknown>;
  return typeof pid === 'number' && typeof host === 'string' && typeof started === 'string';
}

/**
 * When a process started, as Linux tells it: the machine's start and the clock ticks since (field 22
 * of /proc/PID/stat, proc(5)). Empty elsewhere.
 */
function startOf(pid: number): string {
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

function busyText(file: string): string {
  const owner = ownerOf(file);
  const who = owner ? ` (process ${owner.pid} on ${owner.host})` : '';
  return `another command${who} is writing to the studio: try again in a moment`;
}
