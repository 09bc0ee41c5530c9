/** `saggar add KIND --lines FILE`: a record whose lines stand in a file, or come on standard input. */
import { basename, dirname, resolve } from 'node:path';
import type { Kind } from '../../book.ts';
import { STANDARD_INPUT } from '../../entry/given.ts';
import {
  listOptions,
  listWords,
  optionOfKind,
  readLineList,
  type LineList,
} from '../../entry/line-list.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { WARE_OPTIONS } from '../../entry/closing/said.ts';
import type { Finding } from '../../problem.ts';
import { isThere, readSource } from '../../read/disk.ts';
import { locate } from '../../read/place.ts';
import { decodeText } from '../../read/text.ts';
import type { AskedOf } from '../catalogue.ts';
import { refuse } from '../reports/show.ts';
import { EXIT, type World } from '../world.ts';
import type { TypedKind } from './add-typed.ts';
import { complainOf } from './change.ts';
import { inStudio } from './locked.ts';

/** The file of the lines, `-` for standard input, what else was said, and what is done with all of it. */
interface LineSource {
  readonly file: string;
  readonly line: TypedKind;
  readonly goOn: (line: TypedKind, asked: AskedOf<'add'>, world: World) => Promise<number>;
}

/** Reads the lines, and goes on as if each had been an option. */
export async function addListed(
  { file, line: { kind, words }, goOn }: LineSource,
  asked: AskedOf<'add'>,
  world: World,
): Promise<number> {
  if (words.includes('-'))
    return refuse(world, {
      refused: 'give the lines with --lines, or the record with -, not both',
    });
  const path = resolve(world.folder, file);
  if (file !== '-' && !isThere(path))
    return refuse(world, {
      refused: `there is no file ${file}; name one, or - for standard input`,
    });
  const text = file === '-' ? await inputText(world) : fileText(file, path);
  if (typeof text !== 'string') {
    complainOf(world, await locate('', [text]));
    return EXIT.errors;
  }
  const name = file === '-' ? STANDARD_INPUT : file;
  return inStudio({ asked, world }, ({ opened }) => {
    const list = asked.options.closing
      ? readLineList({ file: name, text }, WARE_OPTIONS, () => 'back')
      : listOfKind({ file: name, text }, kind, opened.reading.files);
    if (list.lines.length === 0)
      return Promise.resolve(
        refuse(world, { refused: `${name} has no lines; write one such as "2 mug"` }),
      );
    return goOn({ kind, words: [...listWords(list), ...words], list }, asked, world);
  });
}

function listOfKind(
  source: { readonly file: string; readonly text: string },
  kind: Kind,
  files: Parameters<typeof lexiconOf>[0],
): LineList {
  const names = listOptions(kind).map((option) => option.name);
  return readLineList(source, names, optionOfKind(kind, lexiconOf(files)));
}

async function inputText(world: World): Promise<string | Finding> {
  return decodeText(STANDARD_INPUT, Buffer.from(await world.readInput()));
}

function fileText(file: string, path: string): string | Finding {
  const source = readSource(dirname(path), basename(path));
  if ('text' in source) return source.text;
  return { ...source, at: { ...source.at, file } };
}
