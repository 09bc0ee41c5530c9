import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roffItem, roffMacro, roffText, roffVerbatim } from '../../src/render/roff.ts';
import { holds } from '../helpers/law.ts';
import { needed } from '../helpers/needed.ts';

describe('roff', () => {
  it.each([
    ['.SH is no macro here', '\\&.SH is no macro here'],
    ["'tis no macro", '\\(aqtis no macro'],
    ['C:\\new', 'C:\\enew'],
    ['--as-of', '\\-\\-as\\-of'],
    ['say "mug"', 'say \\(dqmug\\(dq'],
    ['`a` ^ ~', '\\(gaa\\(ga \\(ha \\(ti'],
    ['2228 °F …', '2228 \\[u00B0]F \\[u2026]'],
    ['😀', '\\[u1F600]'],
    ['two\nlines', 'two lines'],
    ['\u001b[31m', '\\eu{1B}[31m'],
  ])('writes %j as %j', (text, roff) => {
    expect(roffText(text)).toBe(roff);
  });

  it('quotes the argument of a macro', () => {
    expect(roffMacro('SS', 'saggar a "b"')).toBe('.SS "saggar a \\(dqb\\(dq"');
  });

  it('lays out items and lines as they are', () => {
    expect(roffItem('--as', 'Form.')).toEqual(['.TP', '.B "\\-\\-as"', 'Form.']);
    expect(roffVerbatim(['a b', '.c'])).toEqual(['.RS 2', '.EX', 'a b', '\\&.c', '.EE', '.RE']);
  });

  it('is ASCII on one line, and never a request', () => {
    holds(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(roffText(text)).toMatch(/^(?![.'])[\x20-\x7e]*$/);
      }),
    );
  });

  it.skipIf(!needed('groff'))('shows printable ASCII as it reads', () => {
    const texts = fc.sample(
      fc.string({
        unit: fc.constantFrom(...Array.from('ab.\'\\-"`^~{}()[]*#$%&|<>=')),
        minLength: 1,
        maxLength: 12,
      }),
      { numRuns: 200, seed: 7 },
    );
    const page = ['.TH A 1', ...roffVerbatim(texts)].join('\n');
    const { stdout, stderr } = spawnSync('groff', ['-man', '-Tutf8', '-ww', '-P-cbu'], {
      input: page,
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    const lines = stdout.split('\n').map((line) => line.trim().replaceAll(/[‐−]/g, '-'));
    for (const text of texts) expect(lines).toContain(text.trim());
  });
});
