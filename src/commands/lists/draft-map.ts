/** `saggar take-in FILE --draft`: proposes the map of a list; with `--by` and `--write` it is saved. */
import { draftOfMap } from '../../entry/lists/draft.ts';
import { delimiterOf, readTable } from '../../entry/lists/table.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { wholeText } from '../../read/disk.ts';
import { encodingOf, listText } from '../../read/list-file.ts';
import { locate } from '../../read/place.ts';
import { printed, printedLayout } from '../../render/printable.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { refuse } from '../reports/show.ts';
import { EXIT, isRefusal } from '../world.ts';
import { carryOut, complainOf, type Scene } from '../records/change.ts';
import { bytesOfList, isFaulty, mapNamed, nameOfList } from './list-asked.ts';
import { whileLocked } from '../records/locked.ts';

/** Prints the draft, or saves it. */
export const draftMap: CommandOf<'take-in'> = (asked, world) => {
  const dryRun = asked.options.dryRun === true || asked.options.write !== true;
  const unlocked = { ...asked, options: { ...asked.options, dryRun } };
  return whileLocked({ asked: unlocked, world }, (scene) => drafted({ ...scene, asked }));
};

async function drafted(scene: Scene<OptionsOf<'take-in'>>): Promise<number> {
  const { asked, world, opened } = scene;
  const bytes = await bytesOfList(asked.argument, world);
  if (isRefusal(bytes)) return refuse(world, bytes);
  if (isFaulty(bytes)) {
    complainOf(world, await locate(opened.folder, bytes.findings));
    return EXIT.errors;
  }
  const encoding = encodingOf(bytes);
  const text = listText(bytes, encoding) ?? '';
  const head = headLine(text);
  const delimiter = delimiterOf(text, head);
  const table = readTable({ file: nameOfList(asked.argument), text }, { delimiter, head });
  if (!('rows' in table)) {
    complainOf(world, await locate(opened.folder, [table]));
    return EXIT.errors;
  }
  const lexicon = lexiconOf(opened.reading.files);
  const draft = draftOfMap({ table, encoding, delimiter, head, lexicon, book: opened.book });
  if (asked.options.write !== true) {
    world.write(printedLayout(draft));
    return EXIT.fine;
  }
  return save(scene, draft);
}

/** The line with the most values of the first ones: what stands above it says whose list it is. */
function headLine(text: string): number {
  const lines = text.split(/\r\n|\n|\r/).slice(0, LOOKED_AT);
  const counts = lines.map((_, at) => valuesOnLine(lines, at));
  return Math.max(0, counts.indexOf(Math.max(...counts))) + 1;
}

const LOOKED_AT = 15;

function valuesOnLine(lines: readonly string[], at: number): number {
  const bare = (lines[at] ?? '').replace(/"[^"]*"/g, '');
  return Math.max(...[',', ';', '\t', '|'].map((sign) => bare.split(sign).length));
}

async function save(scene: Scene<OptionsOf<'take-in'>>, draft: string): Promise<number> {
  const { asked, world, opened } = scene;
  const named = mapNamed(asked.options.by ?? '');
  if (!named)
    return refuse(world, { refused: 'say how the map is to be called, such as --by shop' });
  if (wholeText(opened.folder, named.file) !== undefined)
    return refuse(world, { refused: `${named.file} is there already; change it in an editor` });
  const next = /^kind:/m.test(draft) ? 'take-in' : 'match';
  const change = { file: named.file, before: undefined, after: draft };
  world.write(printedLayout(draft), 'words');
  world.write(printed`\n`, 'words');
  return carryOut(scene, {
    plan: { changes: [change] },
    shown: [],
    done: `Saved ${named.file}; look at each line of it, then run: saggar ${next} FILE --by ${named.name}`,
    undo: () => [],
  });
}
