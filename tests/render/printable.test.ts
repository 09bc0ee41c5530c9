import { resolve } from 'node:path';
import fc from 'fast-check';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { paints } from '../../src/render/paint.ts';
import {
  printed,
  printedLayout,
  printedLines,
  together,
  type Printable,
} from '../../src/render/printable.ts';
import { holds } from '../helpers/law.ts';
import { forgesOutput } from '../helpers/forged-output.ts';
import { anyText, UNSAFE } from './arbitrary.ts';

const BAD = 'a\u001b[31m\r\n\u202eb\tc';
const SHOWN = 'a\\u{1B}[31m\\u{D}\\u{A}\\u{202E}b\\u{9}c';

describe('printable text', () => {
  it('leaves what the template says, and escapes what is put into it', () => {
    expect(printed`\u001b[H${BAD}\r\n${2} of ${'3'}\n`).toBe(`\u001b[H${SHOWN}\r\n2 of 3\n`);
  });

  it('of lines has line ends of ours alone', () => {
    expect(printedLines(['one', BAD])).toBe(`one\n${SHOWN}\n`);
  });

  it('that is laid out keeps its line ends and tabs, and colours where it may have them', () => {
    const { error, strong } = paints(true);
    const text = `${error('x')}\t\u001b[5my\u001b[2J\r\n${strong('z')}\r\u2028\n`;
    const rest = '\\u{1B}[5my\\u{1B}[2J\r\n';
    expect(printedLayout(text, { colour: true })).toBe(
      `${error('x')}\t${rest}${strong('z')}\\u{D}\\u{2028}\n`,
    );
    expect(printedLayout(error('x'))).toBe('\\u{1B}[31mx\\u{1B}[39m');
  });

  it('has nothing that acts in it, whatever comes in', () => {
    holds(
      fc.property(anyText, (text) => {
        expect(printed`${text}`).not.toMatch(UNSAFE);
        expect(printedLayout(text).replaceAll(/\r\n|[\n\t]/g, '')).not.toMatch(UNSAFE);
      }),
    );
  });

  it('stays so when put together', () => {
    const parts: Printable[] = [printed`${BAD}`, printedLines([BAD])];
    expect(together(parts)).toBe(`${SHOWN}${SHOWN}\n`);
  });

  it('is nothing that a plain text passes for', () => {
    // @ts-expect-error the compiler refuses a text that was not escaped
    const raw: Printable = 'raw';
    // @ts-expect-error nor does it take one that was put together from such
    const longer: Printable = printed`x` + BAD;
    expect([raw, longer]).toHaveLength(2);
  });
});

const FORGED = [
  "const a = 'x' as Printable;",
  "const b = 'x' as unknown as Printable;",
  "const c = <Printable>'x';",
  "const d = ['x'] as unknown as { b: readonly Printable[] };",
  "const e = JSON.parse('{}') as Partial<{ readonly text: Printable; n: number }>;",
  "const f = (() => 'x') as unknown as () => Promise<Printable>;",
  'function g(a: string): a is Printable { return a !== ""; }',
];
const HONEST = ["const h = 'x' as 'x' | 'y';", 'const i = { b: 1 } as { b: number };'];

/** The house rule's findings in a module of these lines. */
function foundIn(code: readonly string[]): string[] {
  const file = resolve(import.meta.dirname, '../../src/planted.ts');
  const lines = ["import type { Printable } from './render/printable.ts';", ...code];
  const text = lines.join('\n');
  const options = { allowImportingTsExtensions: true, noEmit: true, strict: true };
  const host = ts.createCompilerHost(options);
  const readFile = host.getSourceFile.bind(host);
  host.getSourceFile = (name, ...rest) =>
    name === file
      ? ts.createSourceFile(name, text, ts.ScriptTarget.ES2023, true)
      : readFile(name, ...rest);
  const program = ts.createProgram([file], options, host);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const words = forgesOutput(node, 'src/planted.ts', program.getTypeChecker());
    if (words !== undefined) found.push(words);
    ts.forEachChild(node, visit);
  };
  visit(program.getSourceFile(file)!);
  return found;
}

it('the house rule on output sees every way of forging it, and lets other casts be', () => {
  const found = foundIn([...HONEST, ...FORGED]);
  expect(found).toHaveLength(FORGED.length);
  for (const [at, words] of found.entries())
    expect(FORGED[at]).toContain(words.replace(/^calls a text printable by /, ''));
});
