import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/review/check.ts';
import { tidy } from '../../src/commands/records/tidy.ts';
import { run } from '../helpers/command-world.ts';
import { inGit } from '../helpers/git.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';

describe('tidy', () => {
  const ODD = {
    'tests/2026-04.yaml':
      '# 1\nt1:\n  date: 2026-04-01 # day\n  kind: tile\n  change: 12E5\n  result: true\n',
    'firings/f1.yaml':
      'f1:\n  date: 2026-04-01\n  kiln: rotunda\n  kind: test\n  cone: 04\n  energy: 3 kWh\n  load: [{ outside: 0044, in: 1 }]\n',
  };
  const TIDY = {
    'tests/2026-04.yaml':
      "# 1\nt1:\n  date: 2026-04-01 # day\n  kind: tile\n  change: '12E5'\n  result: 'true'\n",
    'firings/f1.yaml':
      "f1:\n  date: 2026-04-01\n  kiln: rotunda\n  kind: test\n  cone: '04'\n  energy: 3 kWh\n  load: [{ outside: '0044', in: 1 }]\n",
  };

  it('quotes what needs quotes and nothing else', async () => {
    const folder = small(ODD);
    const { status, out } = await run(tidy, folder);
    expect(status).toBe(0);
    expect(out).toContain('Put quotes round 4 values in firings/f1.yaml, tests/2026-04.yaml.\n');
    expect(filesIn(folder)).toEqual({ ...SMALL_STUDIO, ...TIDY });
    expect(await run(tidy, folder)).toEqual({ status: 0, out: '', err: 'Nothing needs quotes.\n' });
  });

  // YAML 1.1 counts a time in sixties: 16:30 is 16 × 60 + 30 = 990.
  it('quotes times, which are sound without', async () => {
    const firing = (started: string): string =>
      `f1: { date: 2026-04-01, kiln: rotunda, kind: test, cone: '04', started: ${started}, hours: 2, energy: 3 kWh, load: [{ outside: tiles, in: 1 }] }\n`;
    const folder = small({ 'firings/f1.yaml': firing('16:30'), 'firings/f2.yaml': '' });
    const strict = await run(check, folder, { options: { strict: true } });
    expect(strict.out).not.toContain('firings/f1.yaml');
    const { status, out } = await run(tidy, folder);
    expect({ status, out }).toMatchObject({
      status: 0,
      out: expect.stringContaining('Put quotes round 1 value in firings/f1.yaml') as string,
    });
    expect(filesIn(folder)['firings/f1.yaml']).toBe(firing("'16:30'"));
    expect((await run(tidy, folder)).err).toBe('Nothing needs quotes.\n');
  });

  it('prints with --dry-run what git apply does', async () => {
    const folder = inGit(small(ODD));
    const { out } = await run(tidy, folder, { options: { dryRun: true } });
    expect(filesIn(folder)).toEqual({ ...SMALL_STUDIO, ...ODD });
    execFileSync('git', ['apply', '-'], { cwd: folder, input: out });
    expect(filesIn(folder)).toEqual({ ...SMALL_STUDIO, ...TIDY });
  });
});

describe('times in what comes with the program', () => {
  const texts = ['schema/new-studio', 'example-studio', 'schema/README.md', 'README.md'].flatMap(
    (name) => {
      const path = resolve(import.meta.dirname, '../..', name);
      return name.endsWith('.md')
        ? [[name, readFileSync(path, 'utf8')] as const]
        : Object.entries(filesIn(path));
    },
  );

  it('are quoted, in comments and samples too', () => {
    const bare = /(?:^|[\s{,#-])[\w-]+: +\d{1,2}:\d\d(?=\s|,|\}|$)/m;
    expect(bare.test('# started: 16:30\n')).toBe(true);
    expect(texts.filter(([, text]) => bare.test(text)).map(([file]) => file)).toEqual([]);
    const quoted = texts.filter(([, text]) => /started: (["'])\d\d:\d\d\1/.test(text));
    expect(quoted.length).toBeGreaterThan(10);
  });
});
