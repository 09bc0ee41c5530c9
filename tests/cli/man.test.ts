import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMMANDS, COMPLETE_WORDS } from '../../src/commands/catalogue.ts';
import { flagOf, asSentence } from '../../src/commands/spec.ts';
import { CAUTIONS, STATUSES } from '../../src/commands/man.ts';
import { EVERYWHERE } from '../../src/commands/options.ts';
import { isInstalled, needed } from '../helpers/needed.ts';
import { runSaggar } from '../helpers/program.ts';

const page = await runSaggar(['man']);

/** What CI has to have. */
const OF_CI = ['groff', 'man'];

const RENDERERS: readonly (readonly [string, ...string[]])[] = [
  ['groff', '-man', '-Tutf8', '-ww', '-P-c', '-P-u', '-P-b', '-rLL=1000n'],
  ['mandoc', '-T', 'utf8', '-O', 'width=1000'],
  ['man', '-l', '--warnings', '-'],
];

function rendered([program, ...args]: readonly [string, ...string[]]): string {
  const env = { ...process.env, MANWIDTH: '1000', LC_ALL: 'C.UTF-8' };
  const { stdout, stderr, status } = spawnSync(program, args, {
    input: page.out,
    env,
    encoding: 'utf8',
  });
  expect([status, stderr]).toEqual([0, '']);
  return withoutBold(stdout);
}

/** Bold is a sign, a step back, and the sign again. */
function withoutBold(text: string): string {
  const parts = text.split('\b');
  return parts.map((part, at) => (at < parts.length - 1 ? part.slice(0, -1) : part)).join('');
}

/** Lines as words with single spaces; a renderer may justify, and choose its own dashes. */
function words(text: string): string {
  return text.replaceAll(/[‐−]/g, '-').replaceAll(/[ \n]+/g, ' ');
}

describe('the manual page', () => {
  it('comes with status 0 and nothing else', () => {
    expect(page).toMatchObject({ status: 0, err: '' });
  });

  it('is ASCII, so that no renderer has to be told of an encoding', () => {
    expect(page.out).toMatch(/^[\x20-\x7e\n]+$/);
  });

  it.each([
    'none: remember nothing',
    'bash, zsh or fish.',
    'workflow (for git), editor (settings, ids)',
    'us-schedule-c',
  ])('keeps the case of what is typed: %s', (literal) => {
    expect(words(page.out).replaceAll('\\-', '-')).toContain(literal);
  });

  it.each(CAUTIONS)('says with the README: %s', (caution) => {
    const readme = readFileSync(join(import.meta.dirname, '../../README.md'), 'utf8');
    expect(words(readme)).toContain(caution);
  });
});

describe.each(RENDERERS.map((renderer) => ({ program: renderer[0], renderer })))(
  'the manual page shown by $program',
  ({ program, renderer }) => {
    const isThere = OF_CI.includes(program) ? needed(program) : isInstalled(program);
    it.skipIf(!isThere)('has all sections, commands, options and examples', () => {
      const shown = rendered(renderer);
      const text = words(shown);
      expect(shown.match(/^[A-Z][A-Z ]+$/gm)).toEqual([
        ...['NAME', 'SYNOPSIS', 'DESCRIPTION', 'COMMANDS', 'OPTIONS'],
        ...['FILES', 'ENVIRONMENT', 'EXIT STATUS', 'CAUTIONS'],
      ]);
      for (const { name, about, options, examples } of COMMANDS) {
        expect(text).toContain(`saggar ${name} `);
        expect(text).toContain(asSentence(about));
        for (const option of options) expect(text).toContain(flagOf(option));
        const lines = words(shown.replaceAll(/ \\\n +/g, ' '));
        for (const example of examples) expect(lines).toContain(words(` ${example} `));
      }
      for (const { flags, about } of EVERYWHERE)
        expect(text).toContain(`${flags} ${asSentence(about)}`);
      for (const [status, about] of STATUSES)
        expect(text).toContain(`${status} ${asSentence(about)}`);
      for (const caution of CAUTIONS) expect(text).toContain(caution);
      expect(text).not.toContain(COMPLETE_WORDS.name);
    });
  },
);
