/** Starts the program: the only module that names the process. */
import { homedir, hostname } from 'node:os';
import { isatty } from 'node:tty';
import { statusOfLine } from './command-line.ts';
import type { OptionsEverywhere } from './commands/options.ts';
import { EXIT, type TypedLines, type Screen, type World } from './commands/world.ts';
import { memoryPlace, stateFolder, type Home } from './home.ts';
import { openOutput, type Output } from './output.ts';
import { printed } from './render/printable.ts';
import { usableHeight, usableWidth } from './render/render.ts';

/** Filled in by the build. */
declare const SAGGAR_VERSION: string;
declare const SAGGAR_STAMP: string;

/** Runs what was typed and sets the exit status; no failure shows a stack trace. */
async function main(): Promise<void> {
  const output = openOutput({
    out: process.stdout,
    err: process.stderr,
    exitWith: (status) => (process.exitCode = status),
    running: () => process.uptime(),
  });
  output.end(await statusOfRun(output));
}

async function statusOfRun(output: Output): Promise<number> {
  try {
    return await statusOfLine(process.argv.slice(2), {
      version: SAGGAR_VERSION,
      worldFor: (options) => worldOf(output, options),
    });
  } catch (error) {
    return statusOf(error, output);
  }
}

/** Says what ended a run that nobody asked to end. */
function statusOf(error: unknown, { complain }: Output): number {
  const reason = error instanceof Error ? error.message : String(error);
  complain(
    printed`saggar: something went wrong inside the program: ${reason}\nNo file is left half written. Please report it with the command that you typed.\n`,
  );
  return EXIT.cannotRun;
}

function worldOf(
  { write, writeBytes, complain, progress, noProgress }: Output,
  options: OptionsEverywhere,
): World {
  const home = homeOf();
  // What is drawn over itself is read out again and again.
  const isWatched = process.stderr.isTTY && canDraw() && options.plain !== true;
  return {
    folder: process.cwd(),
    today: today(),
    width: widthAsked(options),
    height: process.stdout.isTTY ? usableHeight(process.stdout.rows) : undefined,
    outputIsTerminal: process.stdout.isTTY,
    colour: wantsColour(options),
    quiet: options.quiet === true,
    stamp: SAGGAR_STAMP,
    version: SAGGAR_VERSION,
    environment: process.env,
    memory: memoryPlace(home),
    stateFolder: stateFolder(home),
    write: (text, about) => {
      if (about === undefined || options.quiet !== true) write(text, about);
    },
    writeBytes,
    complain,
    progress: isWatched ? progress : undefined,
    onExit,
    inputIsTerminal: isatty(0),
    openScreen: canAsk() && canDraw() ? () => openScreen(noProgress) : undefined,
    openLines: canAsk() ? () => openLines(noProgress) : undefined,
    readInput,
    random: Math.random,
    writer: { pid: process.pid, host: hostname(), uid: process.getuid?.(), isRunning, timeOf },
  };
}

function homeOf(): Home {
  return {
    environment: process.env,
    folder: homeFolder(),
    platform: process.platform,
    host: hostname(),
    user: process.getuid?.(),
    clock: Date.now,
  };
}

/** Empty where the system knows of none. */
function homeFolder(): string {
  try {
    return homedir();
  } catch {
    return '';
  }
}

/** Questions need somebody who types, and somewhere to show them. */
function canAsk(): boolean {
  return isatty(0) && process.stderr.isTTY;
}

/** Whether the terminal moves its cursor, and may; on Windows they do without a name. */
function canDraw(): boolean {
  if (process.env['SAGGAR_PLAIN']) return false;
  const { TERM = process.platform === 'win32' ? 'windows' : '' } = process.env;
  return TERM !== '' && TERM !== 'dumb';
}

async function openScreen(noProgress: () => void): Promise<Screen> {
  const { openTerminal } = await import('./terminal.ts');
  noProgress();
  return openTerminal({ input: process.stdin, output: process.stderr, onExit });
}

async function openLines(noProgress: () => void): Promise<TypedLines> {
  const { openTerminalLines } = await import('./lines.ts');
  noProgress();
  return openTerminalLines({ input: process.stdin, output: process.stderr, onExit });
}

const DEADLY = { SIGTERM: 143, SIGHUP: 129, SIGINT: EXIT.interrupted } as const;

/** Runs a step at the program's end, also when it is stopped from outside. */
function onExit(step: () => void): () => void {
  const stops = Object.entries(DEADLY).map(([signal, status]) => {
    const stop = (): never => process.exit(status);
    process.once(signal, stop);
    return () => process.off(signal, stop);
  });
  process.once('exit', step);
  return () => {
    process.off('exit', step);
    for (const unstop of stops) unstop();
  };
}

async function readInput(): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

/** Signal 0 only asks; a process of another user answers that it may not be asked. */
function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** The calendar day where the potter is. */
function today(): string {
  return calendarDay(new Date());
}

/** A moment there, to the minute. */
function timeOf(milliseconds: number): string {
  const time = new Date(milliseconds);
  return `${calendarDay(time)} ${two(time.getHours())}:${two(time.getMinutes())}`;
}

function calendarDay(time: Date): string {
  return `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`;
}

function two(number: number): string {
  return String(number).padStart(2, '0');
}

/** What is asked for, then that of the terminal, then what a shell says of its own. */
function widthAsked({ width }: OptionsEverywhere): number {
  if (width !== undefined) return Number(width);
  if (process.stdout.isTTY) return usableWidth(process.stdout.columns);
  return usableWidth(Number(process.env['COLUMNS']));
}

/** The flag, then NO_COLOR, then FORCE_COLOR, then whether a terminal shows it. */
function wantsColour({ colour }: OptionsEverywhere): boolean {
  if (colour !== undefined) return colour;
  if (process.env['NO_COLOR']) return false;
  if (process.env['FORCE_COLOR']) return process.env['FORCE_COLOR'] !== '0';
  return process.stdout.isTTY && process.env['TERM'] !== 'dumb';
}

void main();
