import { describe, expect, it } from 'vitest';
import { runSaggar } from '../helpers/program.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';
import { ENTER, HAS_PYTHON, answer, play } from './drive.ts';
import { keysOfEditor, keysOfEntry } from './week-keys.ts';
import { WEEK, type WeekRecord } from './week-records.ts';
import { THREE_WEEKS } from './week-studio.ts';

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

/** The command's words, with the id that chance has made of the record that they name. */
function wordsOf({ words, of = '' }: WeekRecord, files: Readonly<Record<string, string>>): string[] {
  const [id = ''] = new RegExp(`^${of}\\w+(?=:)`, 'm').exec(files['sales.yaml'] ?? '') ?? [];
  return words.map((word) => (word === 'ID' ? id : word));
}

describe.skipIf(!HAS_PYTHON)('a week that is recorded by entries alone', () => {
  it('takes fewer keys than in an editor, record by record', async () => {
    const folder = tempStudio(THREE_WEEKS);
    const keys: KeysOfRecord[] = [];
    for (const record of WEEK) keys.push(await recorded(folder, record));
    console.log(keys.map((k) => JSON.stringify(k)).join('\n'));
    const { out } = await runSaggar(['check', '--strict', '--as-of', '2026-06-14'], { folder });
    expect(out).toBe('No problems found.\n');
  });
});
