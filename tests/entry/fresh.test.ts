import { describe, expect, it } from 'vitest';
import { freshFindings } from '../../src/entry/plan.ts';
import type { Finding } from '../../src/problem.ts';

function at(id: string, message = 'm', rule = 'r'): Finding {
  return { rule, severity: 'error', at: { file: 'f', path: [id, 'x'] }, message, hint: '' };
}

function placed(line: number, source: string): Finding {
  const place = { file: 'f', line, column: 1, width: 1, source };
  return { rule: 'yaml-error', severity: 'error', at: place, message: 'm', hint: '' };
}

const touched = new Set(['new']);

describe('fresh findings', () => {
  it('are those that were not there before', () => {
    expect(freshFindings([at('a')], [at('a'), at('b')], touched)).toEqual([at('b')]);
    expect(freshFindings([at('a')], [], touched)).toEqual([]);
    expect(freshFindings([at('a')], [at('a', 'm', 'other')], touched)).toHaveLength(1);
  });

  it('are not those whose sums have moved', () => {
    expect(freshFindings([at('a', '3 kg short')], [at('a', '4 kg short')], touched)).toEqual([]);
  });

  it('are those of a touched record that say something else', () => {
    const after = at('new', 'price is "y"');
    expect(freshFindings([at('new', 'price is "x"')], [after], touched)).toEqual([after]);
    expect(freshFindings([at('new')], [at('new')], touched)).toEqual([]);
  });

  it('are counted, where the same stands twice', () => {
    expect(freshFindings([at('a')], [at('a'), at('a')], touched)).toEqual([at('a')]);
  });

  it('are not those whose lines have moved', () => {
    expect(freshFindings([placed(3, 'a: *b')], [placed(5, 'a: *b')], touched)).toEqual([]);
    expect(freshFindings([placed(3, 'a: *b')], [placed(3, 'c: *b')], touched)).toHaveLength(1);
  });
});
