/** Which notes of a change that was cut off are acted on: none that could have come from elsewhere. */
import {
  chmodSync,
  copyFileSync,
  cpSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { leftHalfDone } from '../../src/write/note.ts';
import {
  NEW,
  NEXT,
  halfDone,
  nextWrite,
  noteIn,
  stateOf,
  type Place,
} from '../helpers/half-done.ts';
import { HERE, studioFolder } from '../helpers/studio-folder.ts';
import { filesIn } from '../helpers/temp-studio.ts';

describe('a note is not believed', () => {
  const spoilt: readonly (readonly [string, (place: Place, note: string) => void])[] = [
    [
      'that is a link',
      (_, note) => {
        copyFileSync(note, `${note}.real`);
        rmSync(note);
        symlinkSync(`${note}.real`, note);
      },
    ],
    [
      'that others may write',
      (_, note) => {
        chmodSync(note, 0o666);
      },
    ],
    [
      'of another form',
      (_, note) => {
        writeFileSync(note, readFileSync(note, 'utf8').replace('"form":1', '"form":2'));
      },
    ],
    [
      'of another studio',
      (_, note) => {
        writeFileSync(note, readFileSync(note, 'utf8').replace('"studio":"/', '"studio":"/x/'));
      },
    ],
    [
      'that names a file outside',
      (_, note) => {
        writeFileSync(note, readFileSync(note, 'utf8').replace('"sales.yaml"', '"../sales.yaml"'));
      },
    ],
    [
      'that leads out by a link',
      ({ studio }, note) => {
        const outside = studioFolder({ 'sales.yaml': NEW['sales.yaml'] });
        symlinkSync(outside, join(studio, 'out'));
        writeFileSync(note, readFileSync(note, 'utf8').replace('"sales.yaml"', '"out/sales.yaml"'));
      },
    ],
  ];

  test.each(spoilt)('%s', async (_, spoil) => {
    const place = await halfDone();
    spoil(place, noteIn(place));
    const before = filesIn(place.studio);
    expect(await leftHalfDone(place.studio, { ...HERE, stateFolder: place.stateFolder })).toEqual(
      [],
    );
    expect(await nextWrite(place)).toEqual([]);
    expect(filesIn(place.studio)).toEqual({ ...before, 'next.yaml': NEXT.after });
  });

  test('that lies in the studio, as a branch could bring one', async () => {
    const { studio, stateFolder } = await halfDone();
    const inside = { studio, stateFolder: join(studio, '.state') };
    cpSync(stateFolder, inside.stateFolder, { recursive: true });
    expect(await nextWrite(inside)).toEqual([]);
    expect(stateOf(inside)).toBe('mixed');
  });
});
