/** Standard output and standard error as commands write to them: where they fail nothing else does. */
import { EXIT, type World } from './commands/world.ts';
import { once } from './once.ts';
import { printed, type Printable } from './render/printable.ts';
import { usableWidth } from './render/render.ts';
import { codeOf, reasonFor } from './write/disk.ts';
import { isOpenFile, writeAll } from './write/open-file.ts';

/** The two streams, and how the exit status is set. */
interface Outlets {
  readonly out: NodeJS.WriteStream & { readonly fd: number };
  readonly err: NodeJS.WriteStream;
  readonly exitWith: (status: number) => void;
  /** For how many seconds the program has been running. */
  readonly running: () => number;
}

/** What commands write with, and the end of a run. */
export interface Output extends Pick<World, 'write' | 'complain'> {
  readonly writeBytes: (bytes: Uint8Array) => void;
  /** Shows what is being done, on a line that goes when anything else is said. */
  readonly progress: (words: Printable) => void;
  /** Nothing more of that from here on: somebody is asked on the same screen. */
  readonly noProgress: () => void;
  /** Sets the exit status of a run, unless the output was not to be written. */
  readonly end: (status: number) => void;
}

/**
 * A reader that closed the pipe (`| head`) has what it wanted: that is status 0. Output that can't be
 * written for any other reason is status 2, and is told in one line once the command has come to its
 * end, with what it has changed on the disk. What goes to standard error may get lost.
 */
export function openOutput({ out, err, exitWith, running }: Outlets): Output {
  const sendTo = isOpenFile(out.fd) ? writeToFile : writeToStream;
  const changes: Printable[] = [];
  let failure: unknown;
  let status: number | undefined;
  const settle = (): void => {
    if (status === undefined) return;
    exitWith(failure === undefined ? status : statusOf(failure));
  };
  const { progress, clear, noProgress } = progressOn(err, running);
  const complain = (text: Printable): void => {
    clear();
    err.write(text);
  };
  const tell = once(() => {
    if (codeOf(failure) !== 'EPIPE') complain(notShown(failure, changes));
  });
  const fail = (error: unknown): void => {
    failure ??= error;
    if (status !== undefined) tell();
    settle();
  };
  const send = (data: string | Uint8Array): void => {
    clear();
    if (failure !== undefined) return;
    try {
      sendTo(out, data);
    } catch (error) {
      fail(error);
    }
  };
  out.on('error', fail);
  err.on('error', () => undefined);
  return {
    complain,
    progress,
    noProgress,
    write: (text, about) => {
      if (about === 'change') changes.push(text);
      send(text);
    },
    writeBytes: send,
    end: (reached) => {
      clear();
      status = reached;
      if (failure !== undefined) tell();
      settle();
    },
  };
}

function writeToFile({ fd }: Outlets['out'], data: string | Uint8Array): void {
  writeAll(fd, data);
}

function writeToStream(out: Outlets['out'], data: string | Uint8Array): void {
  out.write(data);
}

/** What takes less time than this needs no words. */
const SECONDS_UNSEEN = 1;

// Erases from the cursor to the line's end (ECMA-48, EL).
const ERASE = '\u001b[K';

function progressOn(
  err: NodeJS.WriteStream,
  running: Outlets['running'],
): Pick<Output, 'progress' | 'noProgress'> & { readonly clear: () => void } {
  let [isShown, isOver] = [false, false];
  const clear = (): void => {
    if (isShown) err.write(`\r${ERASE}`);
    isShown = false;
  };
  return {
    progress: (words) => {
      if (isOver || running() < SECONDS_UNSEEN) return;
      isShown = true;
      err.write(`\r${clippedTo(err.columns, words)}${ERASE}`);
    },
    noProgress: () => {
      clear();
      isOver = true;
    },
    clear,
  };
}

/** A line that was broken by the terminal could not be erased. */
function clippedTo(columns: number, words: Printable): string {
  return `${words}…`.slice(0, usableWidth(columns) - 1);
}

function statusOf(failure: unknown): number {
  return codeOf(failure) === 'EPIPE' ? EXIT.fine : EXIT.cannotRun;
}

/** One line, though what was changed may have been told in several. */
function notShown(failure: unknown, changes: readonly Printable[]): Printable {
  const done = changes
    .map((text) =>
      text
        .trim()
        .split(/\s*\n\s*/)
        .join(' '),
    )
    .join(' ');
  const also = done === '' ? '' : `. This was done all the same: ${done}`;
  return printed`saggar: ${reasonFor(failure, 'standard output', undefined)}${also}\n`;
}
