// Tests run on the TypeScript sources; those that need the built program start bin/saggar.js.
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/helpers/seed.ts', 'tests/helpers/own-home.ts'],
    testTimeout: 30_000,
    maxWorkers: 2,
  },
});
