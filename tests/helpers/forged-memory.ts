/** Ways to damage or forge what is remembered, whatever its form is. */
import { execFileSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';

/** What is done to one file of a memory. */
export interface Damage {
  readonly what: string;
  /** Picks the file. */
  readonly which: number;
  /** Picks a byte, a length, a value or another file. */
  readonly by: number;
}

type Deed = (path: string, by: number, others: readonly string[]) => void;

/** A file's bytes changed, and the file written anew. */
function bytesBy(change: (bytes: Buffer, by: number) => string | Uint8Array): Deed {
  return (path, by) => {
    writeFileSync(path, change(readFileSync(path), by), { mode: 0o600 });
  };
}

/** Something else in the file's place. */
function insteadBy(put: (path: string, other: string) => void): Deed {
  return (path, by, others) => {
    rmSync(path, { recursive: true, force: true });
    put(path, others[by % others.length] ?? path);
  };
}

/** Values of the wrong type, and right-looking ones, for any value that a JSON text has. */
const VALUES = ['null', '0', '-1', '1e999', '""', '"x"', '[]', '{}', '[[]]', '{"at":null}', 'true'];

function valueAt(bytes: Buffer, by: number): string {
  const text = bytes.toString('latin1');
  const values = [...text.matchAll(/"(?:[^"\\]|\\.)*"|-?\d+(?:\.\d+)?|true|false|null/g)];
  const match = values[by % Math.max(1, values.length)];
  if (!match) return text;
  const value = VALUES[by % VALUES.length] ?? '';
  return text.slice(0, match.index) + value + text.slice(match.index + match[0].length);
}

const DEEDS: Readonly<Record<string, Deed>> = {
  emptied: bytesBy(() => ''),
  'cut short': bytesBy((bytes, by) => bytes.subarray(0, by % (bytes.length + 1))),
  'one bit changed': bytesBy((bytes, by) => {
    const at = by % Math.max(1, bytes.length);
    if (bytes.length > 0) bytes[at] = (bytes[at] ?? 0) ^ (1 << (by % 8));
    return bytes;
  }),
  'of random bytes': bytesBy((bytes, by) => bytes.map((_, index) => (index * 31 + by * 7) % 256)),
  'with more after its end': bytesBy((bytes, by) =>
    Buffer.concat([bytes, bytes.subarray(by % 99)]),
  ),
  'of another version': bytesBy((bytes) =>
    Buffer.from(bytes.toString('latin1').replaceAll(/-1\b|v1|"one/g, '-2'), 'latin1'),
  ),
  'with another value': bytesBy((bytes, by) => Buffer.from(valueAt(bytes, by), 'latin1')),
  gone: insteadBy(() => undefined),
  'another file': insteadBy((path, other) => {
    if (existsSync(other)) cpSync(other, path, { recursive: true });
  }),
  'a link to another file': insteadBy((path, other) => {
    symlinkSync(other, path);
  }),
  'a link that leads nowhere': insteadBy((path) => {
    symlinkSync('/nowhere/at/all', path);
  }),
  'a link to an endless file': insteadBy((path) => {
    symlinkSync('/dev/zero', path);
  }),
  'a pipe': insteadBy((path) => {
    execFileSync('mkfifo', [path]);
  }),
  'a folder': insteadBy((path) => {
    mkdirSync(join(path, 'in it'), { recursive: true });
  }),
};

/** Damages by chance, some of them one after the other. */
export const damages: fc.Arbitrary<readonly Damage[]> = fc.array(
  fc.record({
    what: fc.constantFrom(...Object.keys(DEEDS)),
    which: fc.nat(1_000_000),
    by: fc.nat(1_000_000),
  }),
  { minLength: 1, maxLength: 3 },
);

/** Each way once, done to every file of a memory. */
export const EACH_DAMAGE: readonly string[] = Object.keys(DEEDS);

/** Damages files of a memory; `which` picks from all of them in the order of their paths. */
export function damage(folder: string, done: readonly Damage[]): void {
  for (const { what, which, by } of done) {
    const files = filesBelow(folder);
    const path = files[which % Math.max(1, files.length)];
    if (path !== undefined) DEEDS[what]?.(path, by, filesElsewhere(files, path));
  }
}

/** Damages every file of a memory in one way. */
export function damageAll(folder: string, what: string): void {
  const others = copiesOf(folder);
  for (const [index, path] of filesBelow(folder).entries()) DEEDS[what]?.(path, index + 1, others);
  if (others[0] !== undefined) rmSync(join(others[0], '..'), { recursive: true, force: true });
}

/** Plain files below a folder, in the order of their paths. */
function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

function filesElsewhere(files: readonly string[], path: string): readonly string[] {
  const others = files.filter((each) => each !== path);
  return others.length > 0 ? others : [path];
}

// Where each is replaced by another one, those must still be there.
function copiesOf(folder: string): string[] {
  const copies = mkdtempSync(join(tmpdir(), 'saggar-copies-'));
  return filesBelow(folder).map((path, index) => {
    const copy = join(copies, String(index));
    cpSync(path, copy);
    return copy;
  });
}
