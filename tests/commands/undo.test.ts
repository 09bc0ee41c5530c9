import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { amend } from '../../src/commands/records/amend.ts';
import { gone } from '../../src/commands/records/gone.ts';
import { remove } from '../../src/commands/records/remove.ts';
import { revise } from '../../src/commands/records/revise.ts';
import { tidy } from '../../src/commands/records/tidy.ts';
import { unload } from '../../src/commands/records/unload.ts';
import type { Command } from '../../src/commands/world.ts';
import { run, type Told } from '../helpers/command-world.ts';
import { inGit } from '../helpers/git.ts';
import { pasteUndo, undoIn } from '../helpers/undo.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';
import { some } from '../helpers/tier.ts';

const USED = 'u1:\n  date: 2026-05-01\n  material: kaolin\n  quantity: 2 kg\n';
const SALES = SMALL_STUDIO['sales/2026-04.yaml'] ?? '';
const GALLERY = `hillside:
  name: The gallery
  kind: consignment
  commission: 40%
  changes:
    - { from: 2026-01-01, commission: 42% }
    # Their last one.
    - from: 2026-09-01
      commission: 50%
`;
const BRACED = '{ e1: { date: 2026-04-01, to: Hall, for: booth, amount: 3 } }\n';

interface UndoneCase extends Told {
  readonly of: Command<never>;
  readonly files?: Readonly<Record<string, string>>;
}

const kaolin = ['used', '--material', 'kaolin', '--quantity', '1 kg'];

const CASES: Readonly<Record<string, UndoneCase>> = {
  'a record in a new file': { of: add, words: kaolin },
  'a record at the end of a file': { of: add, words: kaolin, files: { 'used/2026-05.yaml': USED } },
  'a record after a comment': {
    of: add,
    words: kaolin,
    files: { 'used/2026-05.yaml': `# May\n${USED}\n# what is to come\n` },
  },
  'several records': {
    of: add,
    words: ['used', '-'],
    input: `${USED}\n${USED.replace('u1', 'u2')}`,
  },
  'a definition that others name already': {
    of: add,
    words: ['materials', '--name', 'Whiting', '--kind', 'dry', '--unit', 'kg'],
    files: { 'used.yaml': USED.replace('kaolin', 'whiting') },
  },
  'single values': { of: amend, words: ['s260402cd', 'buyer=', 'lines.1.price=40'] },
  'a new value': { of: amend, words: ['s260401ab', 'note=sun all day', 'discount=5%'] },
  'a value that was in quotes': {
    of: amend,
    words: ['b260105ab', 'lines.1.lot=7735', 'supplier=The pit'],
  },
  'a line taken out of a list': { of: amend, words: ['s260401ab', 'lines.1='] },
  'a line in place of another': { of: amend, words: ['s260402cd', 'lines.1=3 mug at 30'] },
  'a text of several lines': {
    of: amend,
    words: ['s260402cd', 'note=short'],
    files: { 'sales/2026-04.yaml': `${SALES}  note: |\n    one\n\n    two\n  # and on\n` },
  },
  'a record with an error': {
    of: amend,
    words: ['e1', 'date=2026-04-30'],
    files: { 'spent.yaml': 'e1:\n  date: 2026-04-31\n  to: X\n  for: booth\n  amount: 3\n' },
  },
  'the settings': { of: amend, words: ['studio.yaml', 'name=Another', 'labour-rate=20'] },
  'the settings from a day on': {
    of: amend,
    words: ['studio.yaml', 'labour-rate=27'],
    options: { from: '2026-07-01' },
  },
  'a change between two': {
    of: amend,
    words: ['hillside', 'commission=45%'],
    options: { from: '2026-05-01' },
    files: { 'channels/hillside.yaml': GALLERY },
  },
  'a change of a day that has one': {
    of: amend,
    words: ['hillside', 'commission=', 'fee-each=1'],
    options: { from: '2026-09-01' },
    files: { 'channels/hillside.yaml': GALLERY },
  },
  'a record between others': { of: remove, words: ['s260401ab'] },
  'the last record, with comments': { of: remove, words: ['s260402cd'] },
  'a record and its file': { of: remove, words: ['f260430ef'] },
  'a record that names a field in quotes': {
    of: remove,
    words: ['u1'],
    files: { 'used.yaml': `"u1": { date: 2026-05-01, material: kaolin, "quantity": 2 kg }\n` },
  },
  'a record that others name': {
    of: remove,
    words: ['p260301ab'],
    options: { evenIfUsed: true },
  },
  'several records of two files': { of: remove, words: ['s260401ab', 'k260418mt', 's260402cd'] },
  'a record in lines that end as on Windows': {
    of: remove,
    words: ['s260401ab'],
    files: { 'sales/2026-04.yaml': SALES.replaceAll('\n', '\r\n') },
  },
  'a record with signs of several bytes, after a byte-order mark': {
    of: remove,
    words: ['s260401ab'],
    files: {
      'sales/2026-04.yaml': `\u{feff}${SALES}  note: Käthe’s «Töpfe» 🏺 $HOME \`id\` \\n 'x' "y"\n`,
    },
  },
  'a record without an end of its line': {
    of: remove,
    words: ['s260402cd'],
    files: { 'sales/2026-04.yaml': SALES.trimEnd() },
  },
  'a record in braces': { of: amend, words: ['e1', 'amount=4'], files: { 'spent.yaml': BRACED } },
  quotes: {
    of: tidy,
    files: {
      'spent.yaml': 'e1:\n  date: 2026-04-01\n  to: 007 # Bond\n  for: booth\n  amount: 3\n',
      'studio.yaml': 'format: 1\nname: 12\ncurrency: USD\n',
    },
  },
  'ware that left': { of: gone, words: ['2 mug gift', '1 mug second broken'] },
  'a new version of a recipe': { of: revise, words: ['sea-green', 'kaolin 35', 'cobalt 1%'] },
  'a version put before another': {
    of: revise,
    words: ['celadon', 'kaolin 5'],
    options: { from: '2025-12-01', base: ['90 feldspar'] },
  },
  'a firing that comes out': {
    of: unload,
    words: ['f260430ef'],
    options: { line: ['6 first', 'evening-class 4 first 1 lost 1 cracked'], hours: '8.5' },
  },
};

describe('the undo of', () => {
  const all = Object.entries(CASES);
  const inShells = [
    ...all.map(([name, made]) => [name, 'sh', made] as const),
    ...some(all, 8).map(([name, made]) => [name, 'bash', made] as const),
  ];

  it.each(inShells)('%s gives back the very bytes in %s', async (_, shell, made) => {
    const folder = tempStudio({ ...SMALL_STUDIO, ...made.files });
    const before = filesIn(folder, 'latin1');
    const { of, ...told } = made;
    const { out, err, status } = await run(of, folder, { ...told, memory: 'none' });
    expect({ status, err: status === 0 ? '' : err }).toEqual({ status: 0, err: '' });
    expect(filesIn(folder, 'latin1')).not.toEqual(before);
    expect(out).not.toMatch(/\brm |checkout/);
    await pasteUndo(out, folder, shell);
    expect(filesIn(folder, 'latin1')).toEqual(before);
  });

  it('a record in braces that goes says where it comes back to', async () => {
    const two = BRACED.replace(
      '{ e1',
      '{ e0: { date: 2026-04-02, to: Hall, for: booth, amount: 4 }, e1',
    );
    const folder = small({ 'spent.yaml': two });
    const { out } = await run(remove, folder, { words: ['e0'] });
    expect(out).toContain('Undo (it goes to the end of spent.yaml):\n');
    await pasteUndo(out, folder);
    const text = filesIn(folder)['spent.yaml'];
    expect(text).toContain('e0: { date: 2026-04-02, to: Hall, for: booth, amount: 4 }');
  });

  it('one thing leaves what came after it', async () => {
    const folder = inGit(small());
    const first = await run(add, folder, { words: kaolin });
    const second = await run(add, folder, { words: kaolin, options: { id: 'u2' } });
    const after = filesIn(folder);
    expect(undoIn(first.out)).toBe('saggar remove u260501bb\n');
    await pasteUndo(first.out, folder);
    expect(filesIn(folder)['used/2026-05.yaml']).toContain('u2:');
    await pasteUndo(second.out, folder);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
    expect(after['used/2026-05.yaml']).toContain('u260501bb');
  });

  it('names the studio that was named', async () => {
    const folder = small({ 'used/2026-05.yaml': USED });
    const { out } = await run(add, folder, { words: kaolin, options: { studio: folder } });
    expect(undoIn(out)).toBe(`saggar remove u260501bb --studio ${folder}\n`);
  });

  it('an amendment is the amendment back', async () => {
    const said = await run(amend, small(), {
      words: ['s260402cd', 'discount=', 'lines.1.price=40'],
    });
    expect(undoIn(said.out)).toBe('saggar amend s260402cd discount=10% lines.1.price=36\n');
  });

  const ACTING = 'a\u001b[2J\u001b]52;c;aGk=\u0007\r\n\u202e\u200b\u009b1m\u{e0041} 釉\'"\\!$(id)`';

  it('a text that acts on a terminal is typed in signs that do not, and leads back to it', async () => {
    const folder = small();
    await run(amend, folder, { words: ['s260402cd', `buyer=${ACTING}`] });
    const before = filesIn(folder);
    for (const words of [['buyer=x'], ['buyer=x', 'lines.1=1 mug at 4']]) {
      const { out } = await run(amend, folder, { words: ['s260402cd', ...words] });
      expect(undoIn(out).replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
      expect(filesIn(folder)).not.toEqual(before);
      await pasteUndo(out, folder);
      expect(filesIn(folder)).toEqual(before);
    }
  });

  it('a text that no command line can hold gives the whole record', async () => {
    const folder = small({
      'sales/2026-04.yaml': SALES.replace('Puddle Coffee', '"a\\0b"'),
    });
    const before = filesIn(folder);
    const { out } = await run(amend, folder, { words: ['s260402cd', 'buyer=x'] });
    await pasteUndo(out, folder);
    expect(filesIn(folder)).toEqual(before);
  });
});

describe('putting back', () => {
  const words = ['sales'];

  it.each([
    ['sales/2026-04.yaml:5', 's9:\n  date: 2026-04-01\n', 1, 'is inside another record'],
    ['sales/2026-04.yaml:3', 'x', 1, 'there is no record on standard input'],
    ['spent.yaml:3', 's9:\n  date: 2026-04-01\n', 2, 'is not a file for sales'],
    ['sales/../studio.yaml', 's9:\n  date: 2026-04-01\n', 2, 'is not a file for sales'],
    ['sales/2026-04.yaml:0', 's9:\n  date: 2026-04-01\n', 2, 'lines count from 1'],
  ])('to %s is refused', async (...[backTo, input, status, reason]) => {
    const folder = small();
    const said = await run(add, folder, { words, options: { backTo }, input });
    expect([said.status, said.out]).toEqual([status, '']);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('another record than the one that is named is refused', async () => {
    const folder = small();
    const options = { asItWas: true };
    const input = 's9:\n  date: 2026-04-01\n';
    const said = await run(amend, folder, { words: ['s260402cd'], options, input });
    expect([said.status, said.out]).toEqual([1, '']);
    expect(said.err).toContain('standard input does not hold s260402cd alone');
    writeFileSync(join(folder, 'a.txt'), '');
    const more = await run(amend, folder, { words: ['s260402cd', 'a=b'], options, input });
    expect(more.status).toBe(2);
  });
});
