/** Types at a real terminal: starts the built program at a pseudo-terminal and plays steps to it. */
import { spawn } from 'node:child_process';
import { resolve } from 'node:path';
import { needed } from '../helpers/needed.ts';
import { builtProgram } from '../helpers/program.ts';

const PROGRAM = resolve(import.meta.dirname, '../../bin/saggar.js');
const DRIVER = resolve(import.meta.dirname, 'drive.py');

/** Whether there is what pseudo-terminals are driven with. */
export const HAS_PYTHON = needed('python3');

/** Waits for a text after the last thing that was typed, types, changes the size, runs another program, or sends a signal. */
export type Step =
  | { readonly see: string }
  | { readonly send: string }
  | { readonly size: readonly [columns: number, rows: number] }
  | { readonly run: readonly string[] }
  | { readonly stop: 'SIGTERM' | 'SIGHUP' };

/** Signs that keys send. */
export const ENTER = '\r';
export const CONTROL_C = '\u0003';
export const CONTROL_U = '\u0015';

/** Waits for a text, then types an answer. */
export function answer(see: string, text: string): Step[] {
  return [{ see }, { send: text + ENTER }];
}

/** How a run went. */
export interface Played {
  readonly status: number | null;
  /** All that came to the terminal, control sequences and all. */
  readonly output: string;
  /** Whether the terminal's modes are as they were before. */
  readonly restored: boolean;
  /** What was waited for in vain. */
  readonly fault: string | null;
}

/** Plays steps to `saggar WORDS` in a folder. */
export async function play(
  folder: string,
  words: readonly string[],
  {
    steps,
    size,
    env,
  }: { steps: readonly Step[]; size?: readonly [number, number]; env?: NodeJS.ProcessEnv },
): Promise<Played> {
  await builtProgram();
  const order = { command: [process.execPath, PROGRAM, ...words], folder, steps, size, env };
  const driver = spawn('python3', [DRIVER], { stdio: ['pipe', 'pipe', 'inherit'] });
  driver.stdin.end(JSON.stringify(order));
  let text = '';
  for await (const chunk of driver.stdout) text += String(chunk);
  return JSON.parse(text) as Played;
}

const OWN_SCREEN = '\u001b[?1049h';
const LEAVE = '\u001b[?1049l';

/** What a command says that it is doing, where that takes a while, and taking it away again. */
// eslint-disable-next-line no-control-regex -- the controls are what is looked for
const PROGRESS = /\r[^\r\n\u001b]*\u001b\[K/g;

/** What is left on the terminal once the program's own screen is gone. */
export function left({ output }: Played): string {
  const [before = '', ...others] = output.split(OWN_SCREEN);
  const behind = others.map((own) => own.slice(own.indexOf(LEAVE) + LEAVE.length));
  const lines = [before, ...behind].join('').replaceAll(PROGRESS, '');
  return lines.replaceAll('\r\n', '\n');
}
