import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exampleLines, joinedLines, twoColumns } from '../../src/commands/columns.ts';
import { holds } from '../helpers/law.ts';

describe('two columns', () => {
  it('stand two spaces apart, as wide as the longest left side', () => {
    expect(
      twoColumns(
        [
          ['--as', 'form'],
          ['--studio', 'where'],
        ],
        80,
      ),
    ).toEqual(['  --as      form', '  --studio  where']);
  });

  it('wrap the right one below itself', () => {
    expect(twoColumns([['--as', 'one two three four five six seven']], 32)).toEqual([
      '  --as  one two three four five',
      '        six seven',
    ]);
  });

  it('give a left side that is too long a line of its own', () => {
    const long = '--a-very-long-option <value>';
    expect(
      twoColumns(
        [
          [long, 'x'],
          ['--b', 'y'],
        ],
        80,
      ),
    ).toEqual([`  ${long}`, '       x', '  --b  y']);
  });

  it('stay readable on a narrow terminal and on a wide one', () => {
    const about = 'word '.repeat(60).trim();
    const widest = (width: number): number =>
      Math.max(...twoColumns([['--as', about]], width).map((line) => line.length));
    expect(widest(300)).toBeLessThanOrEqual(100);
    expect(widest(10)).toBeGreaterThan(20);
  });
});

describe('a command line of an example', () => {
  it('stands whole where it fits', () => {
    expect(exampleLines('saggar losses --by product', 80)).toEqual([
      '  saggar losses --by product',
    ]);
  });

  it('goes on behind a backslash, parted before an option', () => {
    expect(exampleLines('saggar add --line "1 mug" --line "2 cups" --note x', 30)).toEqual([
      '  saggar add --line "1 mug" \\',
      '    --line "2 cups" --note x',
    ]);
  });

  it('means the same to a shell as the whole', () => {
    const option = fc.tuple(
      fc.stringMatching(/^[a-z]{1,12}$/),
      fc.stringMatching(/^[a-z -]{0,20}$/),
    );
    holds(
      fc.property(fc.array(option, { maxLength: 6 }), (options) => {
        const words = options.map(([name, value]) => `--${name} "${value.replaceAll('--', '')}"`);
        const whole = ['printf "%s\\n"', ...words].join(' ');
        const lines = exampleLines(whole, 40);
        const run = (script: string): string => spawnSync('sh', ['-c', script]).stdout.toString();
        expect(run(joinedLines(lines))).toBe(run(whole));
      }),
      15,
    );
  });
});
