/** What becomes of a run whose output can't be written: the status says it, and no file is left half done. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { emptyFolder, runShell, type Ran } from '../helpers/program.ts';
import { inGit } from '../helpers/git.ts';
import { small, TODAY } from '../helpers/small-studio.ts';
import { filesIn } from '../helpers/temp-studio.ts';

const AS_OF = `--as-of ${TODAY}`;
const USED = `saggar add used --material kaolin --quantity "1 kg" --id u1 ${AS_OF}`;
const FULL = "saggar: standard output can't be written: there is no room left on the disk";

function bash(script: string, folder: string): Promise<Ran> {
  return runShell(['bash', '-c'], script, { folder });
}

const hasFull = existsSync('/dev/full');

describe.skipIf(!hasFull)('standard output that takes nothing', () => {
  it.each([
    `saggar income ${AS_OF}`,
    `saggar check ${AS_OF} --as json`,
    'saggar --help',
    'saggar --version',
    'saggar man',
    'saggar completion bash',
    'saggar add used --help',
    `${USED} --dry-run`,
  ])('is status 2 with a line that says why: %s', async (line) => {
    const folder = small();
    const before = filesIn(folder);
    expect(await bash(`${line} > /dev/full`, folder)).toEqual({
      status: 2,
      out: '',
      err: `${FULL}\n`,
    });
    expect(filesIn(folder)).toEqual(before);
  });

  it('does not hide that a record was written, changed or removed', async () => {
    const folder = inGit(small());
    const done = (words: string): Ran => ({
      status: 2,
      out: '',
      err: `${FULL}. This was done all the same: ${words}\n`,
    });
    expect(await bash(`${USED} > /dev/full`, folder)).toEqual(
      done('Added u1 to used/2026-05.yaml.'),
    );
    expect(filesIn(folder)['used/2026-05.yaml']).toContain('u1:');
    expect(await bash(`saggar amend u1 "quantity=2 kg" ${AS_OF} > /dev/full`, folder)).toEqual(
      done('Amended u1 in used/2026-05.yaml.'),
    );
    expect(await bash(`saggar remove u1 ${AS_OF} > /dev/full`, folder)).toEqual(
      done('Removed u1, and with it used/2026-05.yaml.'),
    );
    expect(filesIn(folder)).not.toHaveProperty('used/2026-05.yaml');
  });

  it('does not hide what init and export have made', async () => {
    const folder = small();
    const made = await bash('saggar init new --with hooks > /dev/full', emptyFolder());
    expect(made).toMatchObject({ status: 2, out: '' });
    expect(made.err).toMatch(
      /^saggar: standard output .* Made the studio New in new; .* Wrote: \.githooks\/.*\n$/,
    );
    const { status, err } = await bash(`saggar export out ${AS_OF} > /dev/full`, folder);
    expect(status).toBe(2);
    expect(err).toMatch(/^saggar: .* This was done all the same: out: \d+ files; .*\n$/);
    expect(existsSync(join(folder, 'out/index.html'))).toBe(true);
  });

  it('says beside it what else there was to say', async () => {
    const folder = small({ 'materials.yaml': 'kaolin:\n  kind: powder\n' });
    const { status, err } = await bash(`saggar materials ${AS_OF} > /dev/full`, folder);
    expect(status).toBe(2);
    expect(err).toMatch(
      /^saggar: \d+ errors: records with errors are left out .*\n(saggar: standard output can't .*)\n$/,
    );
  });
});

it('output of which the disk took only a part is not taken for whole', async () => {
  const folder = small();
  const cut = join(emptyFolder(), 'cut');
  // A file that may grow to one block takes the beginning, as a disk does that is nearly full.
  const script = `ulimit -f 1; saggar man > '${cut}'`;
  const { status, err } = await bash(script, folder);
  expect(readFileSync(cut).length).toBeGreaterThan(0);
  expect({ status, err }).toEqual({
    status: 2,
    err: "saggar: standard output can't be written: it would be larger than files may be here\n",
  });
});

describe('a reader that has enough', () => {
  it('is status 0 without a word', async () => {
    const script = `set -o pipefail; saggar man | head -c 1; saggar day ${AS_OF} | true`;
    expect(await bash(script, small())).toMatchObject({ status: 0, err: '' });
  });

  it('does not keep a record from being written', async () => {
    const folder = small();
    const { err } = await bash(`${USED} | true`, folder);
    expect(err).toBe('');
    expect(filesIn(folder)['used/2026-05.yaml']).toContain('u1:');
  });
});

describe('the status is as it is', () => {
  const full = hasFull ? ['2>/dev/full'] : [];
  const lines = [
    `saggar check ${AS_OF}`,
    `saggar amend s260401ab lines.1.count=900 ${AS_OF}`,
    'saggar nonsense',
    `saggar add used - ${AS_OF}`,
  ];

  it.each(['2>&-', '<&-', '>&-', '<&- >&- 2>&-', '2> >(true)', ...full])(
    'with %s',
    async (without) => {
      const each = lines.map((line) => `${line} ${without}; echo "$?" >&9`);
      const { out } = await bash(`exec 9>&1 >/dev/null; ${each.join('; ')}`, small());
      expect(out).toBe('0\n1\n2\n2\n');
    },
  );
});

it('a folder on standard input is told of as what it is', async () => {
  const folder = small();
  writeFileSync(join(folder, 'x'), '');
  const { status, err } = await bash(`saggar add used ${AS_OF} < .`, folder);
  expect(status).toBe(2);
  expect(err).toMatch(/^saggar: there is no record on standard input/);
});
