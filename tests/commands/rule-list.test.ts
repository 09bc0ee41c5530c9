/** `check --rules` lists what check can find, without a studio. */
import { describe, expect, it } from 'vitest';
import { READER_RULES, RULES } from '../../src/check/rules.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

const inNoStudio = (as?: string): ReturnType<typeof runCommand> =>
  runCommand(
    'check',
    { rules: true, ...(as === undefined ? {} : { as }) },
    { folder: tempStudio({ 'a.txt': '' }) },
  );

describe('check --rules', () => {
  it('has every rule with its sentence, by name', async () => {
    const { status, out, complaints } = await inNoStudio('json');
    expect({ status, complaints }).toEqual({ status: 0, complaints: '' });
    const { report, rows } = JSON.parse(out) as { report: string; rows: Record<string, string>[] };
    expect(report).toBe('rules');
    const told = rows.map(({ rule, severity, about }) => ({ name: rule, severity, about }));
    const known = [...RULES, ...READER_RULES].map(({ name, severity, about }) => {
      return { name, severity, about };
    });
    expect(told).toEqual(expect.arrayContaining(known));
    const names = told.map(({ name }) => name);
    expect(names).toEqual([...names].sort());
    expect(new Set(names).size).toBe(names.length);
  });

  it('is a plain list at a terminal, headed by what it is', async () => {
    const { out } = await inNoStudio();
    expect(out).toMatch(/^Rules that check knows\n\nRule +Severity +What is wrong\n/);
    expect(out).toMatch(/\nlot-overdrawn +error +More pieces of a lot/);
    expect(out).not.toContain('as of');
  });

  it.each(['sarif', 'annotations'])('is not in the form %s, which is for problems', async (as) => {
    expect(await inNoStudio(as)).toEqual({
      status: 2,
      out: '',
      complaints: `saggar: --as ${as} is for problems: with --rules use text, json, csv, markdown or html\n`,
    });
  });
});
