/** The person's own folders outside every studio: for what is remembered, and for what is under way. */
import { isAbsolute, join } from 'node:path';

/** What tells where a person's folders are. */
export interface Home {
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** The person's home folder. */
  readonly folder: string;
  /** The system, as Node names it. */
  readonly platform: string;
  readonly host: string;
  /** The person's number on the system; undefined where it has none. */
  readonly user: number | undefined;
  /** This moment by the machine's clock, in milliseconds. */
  readonly clock: () => number;
}

/** Where the program may remember things between runs, and for whom. */
export interface MemoryPlace extends Pick<Home, 'host' | 'user' | 'clock'> {
  /** A folder of the program's own, which need not be there yet. */
  readonly folder: string;
  /** The person's home: a studio on another disk is remembered only where the folder was named. */
  readonly home: string;
  /** Whether the person named the folder with `SAGGAR_MEMORY`. */
  readonly isNamed: boolean;
}

const NAME = 'saggar';

/**
 * Where things are remembered: the folder that `SAGGAR_MEMORY` names, else the usual place for caches
 * (XDG Base Directory Specification; on macOS and Windows that system's own). Undefined where
 * `SAGGAR_MEMORY` is `none`, or where there is no home.
 */
export function memoryPlace(home: Home): MemoryPlace | undefined {
  const named = home.environment['SAGGAR_MEMORY'] ?? '';
  const folder = named === '' ? usualFolder(home, USUAL_CACHE) : named;
  if (folder === undefined || named === 'none') return undefined;
  const { host, user, clock } = home;
  return { folder, home: home.folder, isNamed: named !== '', host, user, clock };
}

/** Where it is noted what a command that was killed left half done; undefined without a home. */
export function stateFolder(home: Home): string | undefined {
  return usualFolder(home, USUAL_STATE);
}

/** A variable of the XDG specification, and the usual places from the home folder. */
interface Usual {
  readonly variable: string;
  readonly plain: readonly string[];
  readonly darwin: readonly string[];
}

const USUAL_CACHE: Usual = {
  variable: 'XDG_CACHE_HOME',
  plain: ['.cache'],
  darwin: ['Library', 'Caches'],
};
const USUAL_STATE: Usual = {
  variable: 'XDG_STATE_HOME',
  plain: ['.local', 'state'],
  darwin: ['Library', 'Application Support'],
};

// The specification passes over a path that is not absolute.
function usualFolder({ environment, folder, platform }: Home, usual: Usual): string | undefined {
  const asked = environment[usual.variable] ?? '';
  if (isAbsolute(asked)) return join(asked, NAME);
  const ofWindows = platform === 'win32' ? (environment['LOCALAPPDATA'] ?? '') : '';
  if (isAbsolute(ofWindows)) return join(ofWindows, NAME);
  if (!isAbsolute(folder)) return undefined;
  return join(folder, ...(platform === 'darwin' ? usual.darwin : usual.plain), NAME);
}
