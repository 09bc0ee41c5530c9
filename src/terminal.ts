/** A person at a terminal: keys one by one, and a screen of its own that leaves no trace. */
import { emitKeypressEvents, type Interface } from 'node:readline';
import type { ReadStream, WriteStream } from 'node:tty';
import type { Screen } from './commands/world.ts';
import type { Key, KeyName } from './entry/questions/question.ts';
import { once } from './once.ts';
import { usableHeight, usableWidth } from './render/render.ts';

/** The streams of a terminal, and who else has to be told when it ends. */
interface Streams {
  readonly input: ReadStream;
  readonly output: WriteStream;
  /** Runs a step when the program ends in whatever way, until it is told otherwise. */
  readonly onExit: (step: () => void) => () => void;
}

// The other screen, and paste that says where it begins and ends (xterm control sequences, 1049 and 2004).
const ENTER = '\u001b[?1049h\u001b[?2004h\u001b[H\u001b[2J';
const LEAVE = '\u001b[?2004l\u001b[?1049l';
const CLEAR = '\u001b[2J';
/** After so many milliseconds of silence the Escape key was pressed by itself, and begins no sequence. */
const SILENCE = { escapeCodeTimeout: 50 } as unknown as Interface;

/** Takes the terminal over: keys come raw, and what is drawn is gone when it is given back. */
export function openTerminal({ input, output, onExit }: Streams): Screen {
  const keys = queue<Key>();
  const paste = pasteReader(keys.put);
  const onResize = (): void => {
    output.write(CLEAR);
    keys.put({ name: 'resize', text: '' });
  };
  const onEnd = (): void => {
    keys.put({ name: 'cancel', text: '' });
  };
  const close = once(() => {
    forget();
    input.off('keypress', paste).off('end', onEnd);
    output.off('resize', onResize);
    input.setRawMode(false);
    input.pause();
    output.write(LEAVE);
  });
  const forget = onExit(close);
  emitKeypressEvents(input, SILENCE);
  input.setRawMode(true);
  output.write(ENTER);
  input.on('keypress', paste).on('end', onEnd).resume();
  output.on('resize', onResize);
  return {
    size: () => ({ columns: usableWidth(output.columns), rows: usableHeight(output.rows) }),
    key: keys.take,
    draw: (text) => void output.write(text),
    close,
  };
}

interface Queue<T> {
  readonly put: (item: T) => void;
  readonly take: () => Promise<T>;
}

/** Items wait for whoever takes them, or the taker waits for the next item. */
function queue<T>(): Queue<T> {
  const items: T[] = [];
  const takers: ((item: T) => void)[] = [];
  return {
    put: (item) => {
      const taker = takers.shift();
      if (taker) taker(item);
      else items.push(item);
    },
    take: () =>
      new Promise((resolve) => {
        const item = items.shift();
        if (item === undefined) takers.push(resolve);
        else resolve(item);
      }),
  };
}

/** What node says of one key. */
interface Pressed {
  readonly name?: string;
  readonly ctrl?: boolean;
  readonly meta?: boolean;
  readonly shift?: boolean;
}

type Listener = (text: string | undefined, pressed: Pressed) => void;

/** Turns what node says of keys into ours; a pasted text comes as one, whatever is in it. */
function pasteReader(put: (key: Key) => void): Listener {
  let pasted: string | undefined;
  return (text, pressed) => {
    if (pressed.name === 'paste-start') pasted = '';
    else if (pressed.name === 'paste-end') {
      put({ name: 'paste', text: pasted ?? '' });
      pasted = undefined;
    } else if (pasted !== undefined) pasted += text ?? '';
    else {
      const key = keyPressed(text ?? '', pressed);
      if (key) put(key);
    }
  };
}

const NAMED_KEYS: Readonly<Record<string, KeyName>> = {
  return: 'enter',
  enter: 'enter',
  tab: 'complete',
  down: 'next',
  up: 'previous',
  left: 'left',
  right: 'right',
  home: 'home',
  end: 'end',
  backspace: 'backspace',
  delete: 'delete',
  pageup: 'up',
  pagedown: 'down',
  escape: 'back',
};

const WITH_CONTROL: Readonly<Record<string, KeyName>> = {
  c: 'cancel',
  d: 'cancel',
  u: 'empty',
  w: 'empty-word',
  a: 'home',
  e: 'end',
  h: 'backspace',
};

function keyPressed(text: string, { name = '', ctrl, meta, shift }: Pressed): Key | undefined {
  if (ctrl) return plainKey(WITH_CONTROL[name]);
  if (name === 'tab' && shift) return plainKey('back');
  const known = Object.hasOwn(NAMED_KEYS, name) ? NAMED_KEYS[name] : undefined;
  if (known) return plainKey(known);
  return meta || /^\p{Cc}/u.test(text) || text === '' ? undefined : { name: 'text', text };
}

function plainKey(name: KeyName | undefined): Key | undefined {
  return name && { name, text: '' };
}
