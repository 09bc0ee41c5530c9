/** What a command may know of the world, and what it is asked for; only the command line fills it in. */
import type { Day } from '../book.ts';
import type { Key } from '../entry/questions/question.ts';
import type { MemoryPlace } from '../home.ts';
import type { Printable } from '../render/printable.ts';
import type { Writer } from '../write/store.ts';

/** Where a command runs and whom it talks to. */
export interface World {
  /** The folder that the studio is looked for from. */
  readonly folder: string;
  /** Today, for when no other day is asked for. */
  readonly today: Day;
  /** Width of the terminal in columns. */
  readonly width: number;
  /** Lines of the terminal that standard output goes to; absent where it goes to none. */
  readonly height?: number | undefined;
  /** Whether a person sees standard output on a terminal, so that it goes into no pipe or file. */
  readonly outputIsTerminal?: boolean;
  /** Whether only what was asked for is wanted on standard output: no notes, no words on what is done. */
  readonly quiet?: boolean;
  /** Whether standard output may be coloured. */
  readonly colour: boolean;
  /** Version of the program and of its schemas: what is kept between runs is kept apart by it. */
  readonly stamp: string;
  /** Version of the program. */
  readonly version: string;
  /** Variables of the environment, of which the programs that are started get a few. */
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** Where things are remembered between runs; absent where nothing is. */
  readonly memory?: MemoryPlace | undefined;
  /** The person's folder in which it is noted what is being written; absent where there is none. */
  readonly stateFolder?: string | undefined;
  /**
   * Data, to standard output. A `change` of files that it tells of is told where it can't be written, too;
   * that and `words` on what is done are left out of a quiet run.
   */
  readonly write: (text: Printable, about?: 'change' | 'words') => void;
  /** Bytes for another program, to standard output. */
  readonly writeBytes?: (bytes: Uint8Array) => void;
  /** Problems and progress, to standard error. */
  readonly complain: (text: Printable) => void;
  /**
   * What is being done, for a person who waits at a terminal: shown on one line of standard error once a
   * run takes longer than a second, and gone when anything else is said. Absent where nobody looks on.
   */
  readonly progress?: ((words: Printable) => void) | undefined;
  /** Runs a step when the program ends in whatever way, until it is told otherwise. */
  readonly onExit?: (step: () => void) => () => void;
  /** Whether a person sits at standard input, so that nothing comes from it by itself. */
  readonly inputIsTerminal: boolean;
  /** Takes the terminal over for an entry; absent where nothing can be drawn, or nobody can be asked. */
  readonly openScreen?: (() => Promise<Screen>) | undefined;
  /** Reads what a person types line by line; absent where nobody can be asked. */
  readonly openLines?: (() => Promise<TypedLines>) | undefined;
  /** All bytes of standard input. */
  readonly readInput: () => Promise<Uint8Array>;
  /** A number by chance, from 0 to below 1. */
  readonly random: () => number;
  /** Who writes files. */
  readonly writer: Writer;
}

/** A terminal while somebody is asked at it; what is drawn is gone once it is closed. */
export interface Screen {
  /** Cells, as they are now. */
  readonly size: () => { readonly columns: number; readonly rows: number };
  /** The next key, when it comes. */
  readonly key: () => Promise<Key>;
  /** Text with the control sequences of a terminal. */
  readonly draw: (text: Printable) => void;
  /** Gives the terminal back as it was; a second time does nothing. */
  readonly close: () => void;
}

/** A terminal on which one line follows the other, and none is drawn over. */
export interface TypedLines {
  readonly say: (text: Printable) => void;
  /** The next line, when it comes; undefined at the end. Where it is cut off, `cutOff` is said. */
  readonly line: (cutOff: Printable) => Promise<string | undefined>;
  /** TypedLines that have come already, as when several are pasted; they are not given again. */
  readonly arrived: () => Promise<readonly string[]>;
  readonly close: () => void;
}

/** Whether somebody is there who can be asked, and may be. */
export function mayAsk({ openLines }: World, { input }: { readonly input?: unknown }): boolean {
  return openLines !== undefined && input !== false;
}

/** What was typed after the command's name: options by their long names, and what stands without one. */
export interface Asked<O extends object = Readonly<Record<string, unknown>>> {
  readonly argument: string | undefined;
  /** All arguments; of `add` also the options of the kind's fields with their values. */
  readonly words: readonly string[];
  /** Those that the catalogue has of the command. */
  readonly options: O;
}

/** A command: does its work and returns the exit status. */
export type Command<O extends object = Readonly<Record<string, unknown>>> = (
  asked: Asked<O>,
  world: World,
) => Promise<number>;

/** Exit statuses. */
export const EXIT = { fine: 0, errors: 1, cannotRun: 2, interrupted: 130 } as const;

/** Why a command can't run at all: one sentence for people, and what to do. */
export interface Refusal {
  readonly refused: string;
  /** TypedLines below the sentence. */
  readonly more?: readonly string[];
}

/** Whether something is a refusal, whatever else it says. */
export function isRefusal(value: object): value is Pick<Refusal, 'refused'> {
  return 'refused' in value;
}
