import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { bytesIn, keepBounds } from '../../src/memory/bounds.ts';
import { MAY_BE_PLAIN, asPlainUser } from '../helpers/needed.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

it.runIf(MAY_BE_PLAIN)(
  "what can not be entered counts as nothing, and is in no command's way",
  () => {
    const folder = tempStudio({});
    const store = join(folder, 'saggar', 'a'.repeat(32));
    mkdirSync(store, { recursive: true });
    writeFileSync(join(store, 'list'), 'text');
    const look = (): number =>
      asPlainUser(folder, () => {
        keepBounds({ folder: join(folder, 'saggar'), clock: () => 0 }, '');
        return bytesIn(store);
      });
    expect(look()).toBe(4);
    chmodSync(join(folder, 'saggar'), 0o600);
    expect(look()).toBe(0);
    chmodSync(join(folder, 'saggar'), 0);
    expect(look()).toBe(0);
  },
);
