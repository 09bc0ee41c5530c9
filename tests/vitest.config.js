// Tests run on the TypeScript sources; those that need the built program start bin/saggar.js.
import process from 'node:process';
import { defineConfig } from 'vitest/config';
import { toldLaws } from './helpers/told-laws.js';

// Whatever hangs ends the run at some time; how fast a machine is decides nothing.
const AN_HOUR = 3_600_000;

export default defineConfig(({ mode }) => ({
  test: {
    dir: 'tests',
    include: ['**/*.test.ts'],
    setupFiles: ['tests/helpers/seed.ts', 'tests/helpers/own-home.ts'],
    env: { TIER: mode === 'long' ? 'long' : (process.env['TIER'] ?? 'short') },
    reporters: mode === 'long' ? ['default', toldLaws] : ['default'],
    testTimeout: AN_HOUR,
    hookTimeout: AN_HOUR,
    maxWorkers: 2,
    // Modules are loaded once a worker, for none mocks another; it takes a third of the time.
    isolate: false,
  },
}));
