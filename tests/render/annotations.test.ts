import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/problem.ts';
import { annotations } from '../../src/render/problems/sarif.ts';
import { anyText } from './arbitrary.ts';
import { holds } from '../helpers/law.ts';

function problem(more: Partial<Problem> = {}): Problem {
  return {
    rule: 'schema',
    severity: 'error',
    place: { file: 'sales.yaml', line: 12, column: 9, width: 4, source: '  cone: 04' },
    message: 'the price is wrong',
    hint: 'mend it',
    related: [],
    ...more,
  };
}

/** What a runner makes of a line: the way back from how its own toolkit writes commands. */
function understood(line: string): Record<string, string> | undefined {
  const match = /^::(error|warning) ([^:]*)::([^\r\n]*)$/.exec(line);
  if (!match) return undefined;
  const [, command = '', words = '', data = ''] = match;
  const undone = (text: string): string =>
    text
      .replaceAll('%0D', '\r')
      .replaceAll('%0A', '\n')
      .replaceAll('%3A', ':')
      .replaceAll('%2C', ',')
      .replaceAll('%25', '%');
  const properties = words.split(',').map((word) => {
    const at = word.indexOf('=');
    return [word.slice(0, at), undone(word.slice(at + 1))] as const;
  });
  return { command, message: undone(data), ...Object.fromEntries(properties) };
}

describe('annotations', () => {
  it('are one command for each problem, and a count', () => {
    const related = [{ place: problem().place, message: 'the kiln' }];
    const warning = problem({ severity: 'warning', rule: 'meter-gap', hint: '', related });
    expect(annotations([problem(), warning], 'books/hill street/')).toBe(
      [
        '::error file=books/hill street/sales.yaml,line=12,col=9,endColumn=13,title=schema::the price is wrong%0Ahint: mend it',
        '::warning file=books/hill street/sales.yaml,line=12,col=9,endColumn=13,title=meter-gap::the price is wrong%0Asee books/hill street/sales.yaml:12:9 the kiln',
        '1 error, 1 warning.',
        '',
      ].join('\n'),
    );
  });

  it('are a count alone where nothing is wrong', () => {
    expect(annotations([], '')).toBe('No problems found.\n');
  });

  it('write signs of the commands in other signs', () => {
    const odd = problem({
      place: { ...problem().place, file: 'sales/50%,a:b.yaml' },
      message: '100%\r\n::error::x',
      hint: '',
    });
    expect(annotations([odd], '').split('\n')[0]).toBe(
      '::error file=sales/50%25%2Ca%3Ab.yaml,line=12,col=9,endColumn=13,title=schema::100%25\\u{D}\\u{A}::error::x',
    );
  });

  it('keep each problem on its line, whatever the book holds', () => {
    holds(
      fc.property(anyText, anyText, anyText, (message, hint, file) => {
        const odd = problem({ message, hint, place: { ...problem().place, file } });
        const lines = annotations([odd, odd], '').split('\n');
        expect(lines).toHaveLength(4);
        expect(understood(lines[0] ?? '')).toMatchObject({
          command: 'error',
          line: '12',
          title: 'schema',
        });
        expect(lines[1]).toBe(lines[0]);
      }),
    );
  });

  it('give plain text back as it was', () => {
    holds(
      fc.property(fc.string(), (message) => {
        const [line = ''] = annotations([problem({ message, hint: '' })], '').split('\n');
        expect(understood(line)?.['message']).toBe(message);
      }),
    );
  });
});
