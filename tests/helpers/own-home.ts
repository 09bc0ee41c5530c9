/** Gives what the tests start folders of its own to remember in, not those of the person who runs them. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'saggar-home-'));

process.env['XDG_CACHE_HOME'] = join(folder, 'cache');
process.env['XDG_STATE_HOME'] = join(folder, 'state');

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});
