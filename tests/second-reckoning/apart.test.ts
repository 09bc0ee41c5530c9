/** The second reckoning is one of its own: of the sources it takes types, and which currency has how many decimals. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const IMPORT = /^import (type )?[^;]*? from '([^']+)';/gms;
const TAKEN = ['../../src/number/money.ts'];

it('shares no code with the sources', () => {
  const files = readdirSync(import.meta.dirname).filter((file) => !file.endsWith('.test.ts'));
  const taken = files.flatMap((file) => {
    const text = readFileSync(join(import.meta.dirname, file), 'utf8');
    const imports = [...text.matchAll(IMPORT)].filter(([, type]) => type === undefined);
    return imports.flatMap(([, , from = '']) => (from.includes('/src/') ? [from] : []));
  });
  expect(taken).toEqual(TAKEN);
  expect(files).toContain('reckon-again.ts');
});
