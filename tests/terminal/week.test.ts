import { describe, expect, it } from 'vitest';
import { runSaggar } from '../helpers/program.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';
import { ENTER, HAS_PYTHON, answer, play } from './drive.ts';
import { keysOfCorrection, keysOfEditor, keysOfEntry } from './week-keys.ts';
import { WEEK, type WeekRecord } from './week-records.ts';
import { THREE_WEEKS } from './week-studio.ts';

const SUNDAY = ['--as-of', '2026-06-14'];

/** What a record took. */
interface KeysOfRecord {
  readonly what: string;
  readonly entry: number;
  readonly editor: number;
}

async function recorded(folder: string, record: WeekRecord): Promise<KeysOfRecord> {
  const { what, day, told } = record;
  const before = filesIn(folder);
  const words = wordsOf(record, before);
  const steps = told.flatMap(([see, typed]) => answer(see, typed));
  const played = await play(folder, [...words, '--as-of', day], { steps, size: [100, 40] });
  expect({ what, ...played }).toMatchObject({ what, fault: null, status: 0 });
  const typed = told.map(([, text]) => text + ENTER);
  const editor = keysOfEditor(before, filesIn(folder));
  return { what, entry: keysOfEntry(words, typed), editor };
}

/** The command's words, with the id that chance has made of the sale that they name. */
function wordsOf(
  { words, of = '' }: WeekRecord,
  files: Readonly<Record<string, string>>,
): string[] {
  const [id = ''] = new RegExp(`^${of}\\w+(?=:)`, 'm').exec(files['sales.yaml'] ?? '') ?? [];
  return words.map((word) => (word === 'ID' ? id : word));
}

function total(keys: readonly KeysOfRecord[], way: 'entry' | 'editor'): number {
  return keys.reduce((sum, record) => sum + record[way], 0);
}

type Saying = (...words: readonly string[]) => Promise<string>;

/** What the reports make of the week, and what a person makes of it. */
async function expectFigures(said: Saying): Promise<void> {
  const pieces = await said('pieces', '--by', 'place', '--as', 'csv');
  // 45 + 23 from the kiln − 22 at the fair + 1 returned − 1 given; 4 + 1 − 2.
  expect(pieces).toContain('studio,mug,sea-green,finished ware,first,46,');
  expect(pieces).toContain('studio,mug,sea-green,finished ware,second,3,');
  // 22 + 9 − 6 − 1 broken, and 1 less counted; 2 + 2 − 2; 9 − 2.
  expect(pieces).toContain('studio,bowl,sea-green,finished ware,first,23,');
  expect(pieces).toContain('studio,bowl,sea-green,finished ware,second,2,');
  expect(pieces).toContain('studio,vase,sea-green,finished ware,first,7,');
  const materials = await said('materials', '--as', 'csv');
  // 156 + 400 − 24 × 1 − 12 × 2; as counted; 20 − 2.4 + 10 − 2.4.
  expect(materials).toContain('buff-clay,Buff clay,508,lb,');
  expect(materials).toContain('feldspar,Feldspar,12,kg,');
  expect(materials).toContain('kaolin,Kaolin,25.2,kg,');
  const income = await said('income', '--by', 'channel', '--from', '2026-06-08', '--as', 'csv');
  // 22 × 30 + 6 × 40 + 2 × 90 + 2 × 20 + 2 × 25, of which 2% of 700 by card.
  expect(income).toContain('square,Market on the square,34,1170.00,0.00,0.00,1170.00,14.00,');
  // 160 for the class + 50 in advance − 30.
  expect(income).toContain('door,Studio door,0,210.00,0.00,30.00,180.00,0.00,');
  const day = await said('day');
  // 60% of 2 × 30 + 90 + 40; 200 + 16; 40 of before + 50 + 160 for what begins in July.
  expect(day).toContain('Owed to you     114.00: Gallery');
  expect(day).toContain('You owe         216.00: Pit lane');
  expect(day).toContain('Paid ahead      250.00: ');
}

describe.skipIf(!HAS_PYTHON)('a week that is recorded by entries alone', () => {
  it('takes fewer keys than in an editor, record by record', async () => {
    const folder = tempStudio(THREE_WEEKS);
    const keys: KeysOfRecord[] = [];
    for (const record of WEEK) keys.push(await recorded(folder, record));
    const rows = keys.map(({ what, entry, editor }) => `${what}: ${entry}, in an editor ${editor}`);
    rows.push(`in all: ${total(keys, 'entry')}, in an editor ${total(keys, 'editor')}`);
    console.log(rows.join('\n'));
    expect(keys.filter(({ entry, editor }) => entry >= editor)).toEqual([]);
    expect(total(keys, 'entry')).toBeLessThan(total(keys, 'editor'));
    const said: Saying = async (...words) =>
      (await runSaggar([...words, ...SUNDAY], { folder })).out;
    expect(await said('check', '--strict')).toBe('No problems found.\n');
    await expectFigures(said);
  });

  it('corrects one digit of the last record with fewer keys than an editor that is opened for it', async () => {
    const file = 'sales/2026-06.yaml';
    const folder = tempStudio({
      ...THREE_WEEKS,
      [file]: `s260614ab:
  date: 2026-06-14
  channel: door
  lines:
    - { product: bowl, count: 1, price: 40.00 }

s260614cd:
  date: 2026-06-14
  channel: door
  lines:
    - { product: mug, count: 2, price: 30.00 }
`,
    });
    const before = filesIn(folder)[file] ?? '';
    const told = ['', 'count', '3', '', ''];
    const seen = [
      'Record: usual: s260614cd',
      'What is wrong',
      'count: , price',
      'What else',
      'Save, change',
    ];
    const steps = told.flatMap((text, at) => answer(seen[at] ?? '', text));
    const played = await play(folder, ['amend', ...SUNDAY], { steps, size: [80, 30] });
    expect(played).toMatchObject({ fault: null, status: 0, restored: true });
    const after = filesIn(folder)[file] ?? '';
    expect(after).toBe(before.replace('count: 2', 'count: 3'));
    const entry = keysOfEntry(
      ['amend'],
      told.map((text) => text + ENTER),
    );
    const editor = keysOfCorrection({ file, id: 's260614cd' }, before, after);
    console.log(`one digit of the last record: ${entry}, in an editor ${editor}`);
    expect(entry).toBeLessThan(editor);
  });
});
