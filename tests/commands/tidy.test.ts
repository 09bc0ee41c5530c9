import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
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

  it('prints with --dry-run what git apply does', async () => {
    const folder = inGit(small(ODD));
    const { out } = await run(tidy, folder, { options: { dryRun: true } });
    expect(filesIn(folder)).toEqual({ ...SMALL_STUDIO, ...ODD });
    execFileSync('git', ['apply', '-'], { cwd: folder, input: out });
    expect(filesIn(folder)).toEqual({ ...SMALL_STUDIO, ...TIDY });
  });
});
