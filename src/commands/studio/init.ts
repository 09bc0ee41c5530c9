/** `saggar init DIR`: a new studio with samples of everything, help for the editor, and a first check. */
import { basename, relative, resolve } from 'node:path';
import { nearest } from '../../nearest.ts';
import { CURRENCIES, minorDigits } from '../../number/money.ts';
import { findStudio, whyNotVacant } from '../../read/find.ts';
import { repositoryAround } from '../../read/git/around.ts';
import { newStudioFiles, schemaFiles } from '../../read/package.ts';
import { locate } from '../../read/place.ts';
import { printed, printedLines, type Printable } from '../../render/printable.ts';
import { problemText } from '../../render/problems/problems.ts';
import { newStudio, type FirstSettings, type Originals } from '../../write/new-studio.ts';
import { leftHalfDone } from '../../write/note.ts';
import { lockForWriting, makeStudioFolder, type FileToWrite } from '../../write/store.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { firstIds } from './editor.ts';
import { storeFor } from './find-studio.ts';
import {
  addParts,
  askedParts,
  isStudio,
  refuseFirstSettings,
  writeFiles,
  type StudioInMaking,
  type StudioParts,
} from './init-with.ts';
import { openFound } from './open.ts';
import { refuse } from '../reports/show.ts';
import { tellChange } from '../records/told.ts';
import { shellQuoted } from '../records/undo.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';
import { writerIn } from '../records/writer.ts';

/** Makes a studio in an empty folder, says what it made and what to do next, and checks it. */
export const init: CommandOf<'init'> = async (asked, world) => {
  const parts = askedParts(asked.options);
  if (isRefusal(parts)) return refuse(world, parts);
  const there = resolve(world.folder, asked.argument ?? '');
  await undoEarlier(there, world);
  if (asked.options.as !== 'json') return makeOrAdd(parts, asked, { world, written: [] });
  // A program is told of it once it is done.
  const silent: World = { ...world, write: () => undefined };
  const written: FileToWrite[] = [];
  const status = await makeOrAdd(parts, asked, { world: silent, written });
  return written.length === 0 && status !== EXIT.fine
    ? status
    : Math.max(status, await tellMade({ asked, world, folder: there }, written));
};

type Making = Pick<StudioInMaking, 'world' | 'written'>;

function makeOrAdd(
  parts: StudioParts,
  asked: AskedOf<'init'>,
  making: Making,
): Promise<number> | number {
  const { world } = making;
  const folder = resolve(world.folder, asked.argument ?? '');
  if (parts.size === 0 || !isStudio(folder)) return makeStudio(parts, asked, making);
  const refused = refuseFirstSettings(asked.options);
  return refused ? refuse(world, refused) : addParts(parts, { ...making, folder });
}

async function makeStudio(
  parts: StudioParts,
  asked: AskedOf<'init'>,
  { world, written }: Making,
): Promise<number> {
  const folder = vacantFolder(asked, world);
  if (typeof folder !== 'string') return refuse(world, folder);
  const settings = askedSettings(asked.options, folder);
  if (isRefusal(settings)) return refuse(world, settings);
  const originals = readOriginals();
  if (isRefusal(originals)) return refuse(world, originals);
  const changes = newStudio(settings, originals);
  const refused =
    makeStudioFolder(folder, world.writer.uid) ??
    (await writeFiles({ root: folder, changes }, { folder, world, written }));
  if (refused) return refuse(world, refused);
  await firstIds(folder, world);
  const place = placeFrom(world, folder);
  world.write(madeText(place, settings), 'change');
  world.write(printedLines(WHAT_IS_THERE), 'words');
  const status = await firstCheck(folder, world);
  world.write(nextText(place, repositoryAround(folder) !== undefined), 'words');
  if (settings.currency !== 'USD') world.write(printedLines(NO_VAT), 'words');
  if (parts.size === 0) return status;
  world.write(printed`\n`, 'words');
  const inFolder = { folder, world: { ...world, folder }, written };
  return Math.max(status, await addParts(parts, inFolder));
}

interface ToldMade {
  readonly asked: AskedOf<'init'>;
  readonly world: World;
  readonly folder: string;
}

/** Tells a program what was written. */
async function tellMade(
  { asked, world, folder }: ToldMade,
  changes: readonly FileToWrite[],
): Promise<number> {
  const opened = await openFound({ folder, asOf: world.today, store: storeFor(folder, world) });
  if (isRefusal(opened)) return refuse(world, opened);
  tellChange({ asked, world, opened }, { changes, written: true });
  return EXIT.fine;
}

/** Takes away what an earlier run that was cut off has left in the folder. */
async function undoEarlier(folder: string, world: World): Promise<void> {
  const writer = writerIn(world);
  if ((await leftHalfDone(folder, writer)).length === 0) return;
  const lock = await lockForWriting(folder, writer);
  if ('release' in lock) lock.release();
}

/** The folder that is asked for; refuses where something is in it, or where a studio is around it. */
function vacantFolder({ argument }: AskedOf<'init'>, world: World): string | Refusal {
  if (argument === undefined || argument.trim() === '')
    return { refused: 'say which folder, as in saggar init my-studio; it is made if need be' };
  const folder = resolve(world.folder, argument);
  const why = whyNotVacant(folder);
  if (why !== undefined)
    return { refused: `${argument} ${why}; ${isStudio(folder) ? TO_ADD : TO_MAKE}` };
  const around = findStudio(folder);
  if (around === undefined) return folder;
  return { refused: `${argument} is inside the studio ${around}; give a folder outside it` };
}

const TO_MAKE = "give a folder that is empty or isn't there yet";
const TO_ADD = 'it is a studio already, to which --with adds hooks, workflow or editor';

function askedSettings(options: OptionsOf<'init'>, folder: string): FirstSettings | Refusal {
  const { name = nameFrom(folder), currency = 'USD' } = options;
  if (!/\S/.test(name)) return { refused: '--name needs a name for the studio' };
  if (minorDigits(currency) === undefined) return unknownCurrency(currency);
  const weightUnit = options.weightUnit ?? (currency === 'USD' ? 'lb' : 'kg');
  return { name: name.trim(), currency, weightUnit };
}

/** `hill-street-pottery` → `Hill street pottery`. */
function nameFrom(folder: string): string {
  const words = basename(folder)
    .replaceAll(/[-_\s]+/g, ' ')
    .trim();
  return words === '' ? 'My studio' : words.slice(0, 1).toUpperCase() + words.slice(1);
}

function unknownCurrency(word: string): Refusal {
  const near = nearest(word, CURRENCIES);
  const hint = near === undefined ? '' : `; did you mean ${near}?`;
  return {
    refused: `--currency takes three capital letters of ISO 4217, such as EUR, and not "${word}"${hint}`,
  };
}

function readOriginals(): Originals | Refusal {
  const studio = newStudioFiles();
  if (isRefusal(studio)) return studio;
  const schemas = schemaFiles();
  return isRefusal(schemas) ? schemas : { studio, schemas };
}

/** The folder as the person would type it from where they stand. */
function placeFrom(world: World, folder: string): string {
  const path = relative(resolve(world.folder), folder);
  return path.startsWith('..') ? folder : path;
}

function madeText(place: string, { name, currency }: FirstSettings): Printable {
  const where = place === '' ? 'this folder' : place;
  return printed`Made the studio ${name} in ${where}; amounts are in ${currency}.\n`;
}

/** There is no VAT in the United States. */
const NO_VAT: readonly string[] = [
  '',
  'If you are registered for VAT: VAT returns and VAT invoices are not supported.',
];

const WHAT_IS_THERE: readonly string[] = [
  '',
  '  studio.yaml                  the settings, each with its meaning',
  '  materials, recipes, products, kilns, tariffs, channels, classes (.yaml)',
  '                               samples of what a studio has, to be made yours',
  '  bought/ mixed/ pieces/ firings/ sales/ and eight more folders',
  '                               a README.yaml in each shows how to record it',
  '  .schema/                     lets an editor with YAML support help as you type',
  '  .gitattributes, .gitignore   for git',
  '',
];

/** Everything that is wrong with what was made: nothing, or the program is at fault. */
async function firstCheck(folder: string, world: World): Promise<number> {
  const opened = await openFound({ folder, asOf: world.today, store: storeFor(folder, world) });
  if (isRefusal(opened)) return refuse(world, opened);
  const problems = await locate(opened.folder, opened.findings);
  const text = problemText(problems, { width: world.width, colour: world.colour });
  world.write(text, problems.length === 0 ? 'words' : undefined);
  world.write(printed`\n`, 'words');
  return opened.errors === 0 ? EXIT.fine : EXIT.errors;
}

function nextText(place: string, isRepository: boolean): Printable {
  const commit = 'git add . && git commit -m "Begin the book"';
  return printedLines([
    'What to do next:',
    ...(place === '' ? [] : [`  cd ${shellQuoted(place)}`]),
    '  open studio.yaml and the samples beside it, and make them yours',
    `  ${isRepository ? '' : 'git init && '}${commit}`,
    '  saggar add bought --help     to record what is on your shelves',
    '  saggar day                   at the end of the day',
  ]);
}
