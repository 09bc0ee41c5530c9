/** A person at a terminal that shows one line after the other, such as one that is read out. */
import { createInterface } from 'node:readline';
import { setTimeout } from 'node:timers/promises';
import type { ReadStream, WriteStream } from 'node:tty';
import type { TypedLines } from './commands/world.ts';
import { once } from './once.ts';

/** The streams of a terminal, and who else has to be told when it ends. */
interface LineStreams {
  readonly input: ReadStream;
  readonly output: WriteStream;
  /** Runs a step when the program ends in whatever way, until it is told otherwise. */
  readonly onExit: (step: () => void) => () => void;
}

/** A paste comes line by line; it is over after so many milliseconds of silence. */
const SILENCE = 50;

/** Reads lines as the terminal gives them; it edits them itself, and nothing of it is changed. */
export function openTerminalLines({ input, output, onExit }: LineStreams): TypedLines {
  const reader = createInterface({ input, terminal: false });
  let lines: (string | undefined)[] = [];
  let taker: ((line: string | undefined) => void) | undefined;
  const put = (line: string | undefined): void => {
    if (taker) taker(line);
    else lines.push(line);
    taker = undefined;
  };
  reader.on('line', put).on('close', () => {
    put(undefined);
  });
  const next = (): Promise<string | undefined> =>
    new Promise((resolve) => {
      if (lines.length > 0) resolve(lines.shift());
      else taker = resolve;
    });
  let cutOff = '';
  const forget = onExit(() => {
    if (cutOff !== '')
      output.write(`
${cutOff}`);
  });
  return {
    say: (text) => void output.write(text),
    line: (words) => {
      cutOff = words;
      return next().finally(() => (cutOff = ''));
    },
    arrived: async () => {
      await setTimeout(SILENCE);
      const some = lines.filter((line) => line !== undefined);
      lines = lines.filter((line) => line === undefined);
      return some;
    },
    close: once(() => {
      forget();
      reader.close();
      input.pause();
    }),
  };
}
