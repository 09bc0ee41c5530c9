/** A rename over a file that is in use: tried again for a while, then said as what it is. */
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { reasonFor, renameOver } from '../../src/write/disk.ts';
import { studioFolder } from '../helpers/studio-folder.ts';

/** A disk that refuses so many times. */
function refusing(
  code: string,
  times: number,
): { tries: number; waited: number; rename: () => void; pause: (ms: number) => void } {
  const disk = {
    tries: 0,
    waited: 0,
    rename: () => {
      disk.tries += 1;
      if (disk.tries <= times) throw Object.assign(new Error(code), { code });
    },
    pause: (milliseconds: number) => {
      disk.waited += milliseconds;
    },
  };
  return disk;
}

describe('a rename over a file that is open elsewhere', () => {
  test.each(['EPERM', 'EACCES', 'EBUSY'])('is tried again: %s', (code) => {
    const to = join(studioFolder({ 'sales.yaml': '' }), 'sales.yaml');
    const disk = refusing(code, 3);
    renameOver('new', to, disk);
    expect(disk.tries).toBe(4);
  });

  test.each(['EPERM', 'EACCES', 'EBUSY'])('is told of after about a second: %s', (code) => {
    const to = join(studioFolder({ 'sales.yaml': '' }), 'sales.yaml');
    const disk = refusing(code, Infinity);
    let error: unknown;
    try {
      renameOver('new', to, disk);
    } catch (thrown) {
      error = thrown;
    }
    expect(reasonFor(error, 'sales.yaml', 0)).toBe(
      "sales.yaml can't be written: it is open in another program",
    );
    expect(disk.waited).toBeGreaterThanOrEqual(800);
    expect(disk.waited).toBeLessThanOrEqual(1200);
  });

  test('is not tried again where the disk is full', () => {
    const disk = refusing('ENOSPC', Infinity);
    expect(() => {
      renameOver('new', join(studioFolder(), 'sales.yaml'), disk);
    }).toThrow('ENOSPC');
    expect(disk.tries).toBe(1);
  });
});
