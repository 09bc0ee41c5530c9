import { describe, expect, it } from 'vitest';
import { openOutput, type Output } from '../src/output.ts';
import { printed } from '../src/render/printable.ts';

interface Shown {
  readonly output: Output;
  /** What came to standard error. */
  readonly err: () => string;
}

/** Standard error of so many columns, of a program that has been running for so many seconds. */
function terminal({ columns = 80, seconds = 2 }: { columns?: number; seconds?: number }): Shown {
  let text = '';
  const stream = {
    fd: -1,
    columns,
    on: () => stream,
    write: (words: string) => {
      text += words;
      return true;
    },
  };
  const out = { ...stream, write: () => true };
  const output = openOutput({
    out: out as unknown as NodeJS.WriteStream & { readonly fd: number },
    err: stream as unknown as NodeJS.WriteStream,
    exitWith: () => undefined,
    running: () => seconds,
  });
  return { output, err: () => text };
}

describe('what is being done', () => {
  it('is told on one line, which goes when anything else is said', () => {
    const { output, err } = terminal({});
    output.progress(printed`Reading the book`);
    output.progress(printed`Writing ${'index.html'}`);
    output.complain(printed`1 error\n`);
    expect(err()).toBe(
      '\rReading the book…\u001b[K\rWriting index.html…\u001b[K\r\u001b[K1 error\n',
    );
  });

  it.each(['write', 'end'] as const)('goes before the output and at the end: %s', (way) => {
    const { output, err } = terminal({});
    output.progress(printed`Reading`);
    if (way === 'write') output.write(printed`3 files\n`);
    else output.end(0);
    expect(err()).toBe('\rReading…\u001b[K\r\u001b[K');
  });

  it('is not told of what takes less than a second', () => {
    const { output, err } = terminal({ seconds: 0.9 });
    output.progress(printed`Reading`);
    output.complain(printed`1 error\n`);
    expect(err()).toBe('1 error\n');
  });

  it('is not told any more once somebody is asked there', () => {
    const { output, err } = terminal({});
    output.progress(printed`Reading`);
    output.noProgress();
    output.progress(printed`Going through 2026-03`);
    expect(err()).toBe('\rReading…\u001b[K\r\u001b[K');
  });

  it('is cut where the line is too short, so that all of it can go', () => {
    const { output, err } = terminal({ columns: 8 });
    output.progress(printed`Reading the book`);
    expect(err()).toBe('\rReading\u001b[K');
  });
});
