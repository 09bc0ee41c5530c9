/** `saggar tidy`: puts quotes where other readers of a file would change a text. */
import { asItWas, type UndoStep } from '../../entry/undoing/undo.ts';
import { counted } from '../../in-words.ts';
import { wholeText } from '../../read/disk.ts';
import { SETTINGS_FILE } from '../../read/kinds.ts';
import { isMap } from '../../read/raw.ts';
import { printed } from '../../render/printable.ts';
import type { FileToWrite } from '../../write/store.ts';
import { tidyText, type TextSpot } from '../../write/tidy.ts';
import type { CommandOf } from '../catalogue.ts';
import { carryOut, type Scene } from './change.ts';
import { whileLocked } from './locked.ts';
import type { OpenedFiles } from '../studio/open.ts';
import { EXIT } from '../world.ts';

/** Quotes what needs quotes, and changes nothing else. */
export const tidy: CommandOf<'tidy'> = (asked, world) => whileLocked({ asked, world }, tidyAsked);

async function tidyAsked(scene: Scene): Promise<number> {
  const { world, opened } = scene;
  const plan = planTidy(opened);
  const { changes, quoted, left } = plan;
  for (const reason of left) world.complain(printed`saggar: ${reason}\n`);
  if (changes.length === 0 && left.length === 0) world.complain(printed`Nothing needs quotes.\n`);
  if (changes.length === 0) return left.length === 0 ? EXIT.fine : EXIT.errors;
  const files = changes.map(({ file }) => file).join(', ');
  const done = `Put quotes round ${counted(quoted, 'value')} in ${files}`;
  const undo = (): readonly UndoStep[] => undoTidied(plan);
  const written = await carryOut(scene, { plan, shown: [], done, undo });
  return left.length > 0 ? EXIT.errors : written;
}

/** The files that get quotes, and those that can't, each with the reason. */
interface TidyPlan {
  readonly changes: readonly FileToWrite[];
  /** How many values and names get quotes. */
  readonly quoted: number;
  readonly left: readonly string[];
  /** The records in which something gets quotes; of the settings, an id that is empty. */
  readonly records: readonly { readonly id: string; readonly file: string }[];
}

/** Puts each record back as it was. */
function undoTidied({ changes, records }: TidyPlan): readonly UndoStep[] {
  return records.map((record) => {
    const change = changes.find(({ file }) => file === record.file);
    return asItWas(record, change?.before ?? '');
  });
}

/** A place of a text in one file. */
type SpotInFile = TextSpot & { readonly file: string };

/** Plans quotes for everything that the check found in want of them (`needs-quotes`), and for times. */
function planTidy({ folder, findings, reading }: OpenedFiles): TidyPlan {
  const byFile = new Map<string, TextSpot[]>();
  const unquoted = findings.flatMap(({ rule, at }) =>
    rule === 'needs-quotes' && !('line' in at) ? [at] : [],
  );
  for (const spot of [...unquoted, ...plainTimes(folder, reading)])
    byFile.set(spot.file, [...(byFile.get(spot.file) ?? []), spot]);
  const changes: FileToWrite[] = [];
  const left: string[] = [];
  let quoted = 0;
  for (const [file, spots] of byFile) {
    const before = wholeText(folder, file) ?? '';
    const tidied = tidyText(before, spots);
    if ('refused' in tidied) left.push(`${file} was left as it is: ${tidied.refused}`);
    else if (tidied.text !== before) {
      changes.push({ file, before, after: tidied.text });
      quoted += tidied.quoted;
    }
  }
  const records = changes.flatMap(({ file }) => recordsAt(file, byFile.get(file) ?? []));
  return { changes, quoted, left, records };
}

/** Times without quotes: no fault, for this program and most others read them as they are. */
function plainTimes(folder: string, { files }: OpenedFiles['reading']): SpotInFile[] {
  return files
    .filter(({ file, kind }) => kind === 'firings' && TIME.test(wholeText(folder, file) ?? ''))
    .flatMap(({ file, root }) =>
      Object.entries(root)
        .filter(([, raw]) => isMap(raw) && typeof raw['started'] === 'string')
        .map(([id]) => ({ file, path: [id, 'started'] })),
    );
}

const TIME = /\bstarted: *\d/;

function recordsAt(
  file: string,
  spots: readonly TextSpot[],
): readonly { readonly id: string; readonly file: string }[] {
  const ids = file === SETTINGS_FILE ? [''] : spots.map(({ path }) => String(path[0] ?? ''));
  return [...new Set(ids)].map((id) => ({ id, file }));
}
