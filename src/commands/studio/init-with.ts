/** `saggar init DIR --with …`: hooks, a workflow, or help for an editor beside a studio. */
import { join, relative, resolve } from 'node:path';
import { wholeText } from '../../read/disk.ts';
import { repositoryAround } from '../../read/git/around.ts';
import { openMemory } from '../../read/kept/memory.ts';
import { gitFiles, schemaFiles } from '../../read/package.ts';
import { readStudio } from '../../read/read.ts';
import { printed, printedLines, type Printable } from '../../render/printable.ts';
import {
  GIT_PARTS,
  HOOKS_FOLDER,
  gitChanges,
  overwrites,
  type GitPart,
} from '../../write/for-git.ts';
import { applyPlan, type FileToWrite } from '../../write/store.ts';
import type { OptionsOf } from '../catalogue.ts';
import { diffOf } from '../records/change.ts';
import { unknownWord } from '../ids.ts';
import { refuse } from '../reports/show.ts';
import { shellQuoted } from '../records/undo.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';
import { writerIn } from '../records/writer.ts';
import { editorParts, type EditorParts } from './editor.ts';
import { storeFor } from './find-studio.ts';

/** All that can be asked for. */
const STUDIO_PARTS = [...GIT_PARTS, 'editor'] as const;

type StudioPart = (typeof STUDIO_PARTS)[number];

/** Some of them. */
export type StudioParts = ReadonlySet<StudioPart>;

/** The parts that are asked for: `--with hooks,workflow`; none where the option was not given. */
export function askedParts({ with: text }: OptionsOf<'init'>): StudioParts | Refusal {
  if (text === undefined) return new Set();
  const words = text.split(',').map((word) => word.trim());
  const unknown = words.find((word) => !STUDIO_PARTS.some((part) => part === word));
  if (unknown !== undefined) return unknownWord('--with', unknown, STUDIO_PARTS);
  return new Set(STUDIO_PARTS.filter((part) => words.includes(part)));
}

/** A studio that is made or added to, and what of it is written so far, by paths from its folder. */
export interface StudioInMaking {
  readonly folder: string;
  readonly world: World;
  readonly written: FileToWrite[];
}

/** What is to be written, and from which folder its paths are. */
interface FilesToAdd {
  readonly root: string;
  readonly changes: readonly FileToWrite[];
}

/**
 * Adds the parts, says what they are and how they are turned on. Files that somebody has there are
 * never written over, but for the schemas, which are the program's own. Of hooks and a workflow nothing
 * is written at all then, and the difference is shown; what settings of an editor lack is said.
 */
export async function addParts(parts: StudioParts, making: StudioInMaking): Promise<number> {
  const { folder, world } = making;
  const forGit = filesForGit(parts, folder);
  if (isRefusal(forGit)) return refuse(world, forGit);
  const forEditor = await filesForEditor(parts, folder, world);
  if (isRefusal(forEditor)) return refuse(world, forEditor);
  const clashes = forGit.changes.filter(overwrites);
  if (clashes.length > 0) return refuseToOverwrite(clashes, world);
  const batches = [forGit, forEditor];
  for (const batch of batches) {
    const refused = await writeFiles(batch, making);
    if (refused) return refuse(world, refused);
  }
  sayAdded(batches.flatMap(filesOf), forGit.changes.length > 0, world);
  world.write(nextText(parts, commandPlace(forGit.root, world)), 'words');
  sayToAdd(forEditor.toAdd, world);
  return EXIT.fine;
}

/** Writes files, and notes that they are. */
export async function writeFiles(
  { root, changes }: FilesToAdd,
  { folder, world, written }: StudioInMaking,
): Promise<Refusal | undefined> {
  const applied = await applyPlan(root, changes, writerIn(world));
  if (isRefusal(applied)) return applied;
  const fromFolder = (file: string): string => relative(folder, join(root, file));
  written.push(...changes.map((change) => ({ ...change, file: fromFolder(change.file) })));
  return undefined;
}

function filesForGit(parts: StudioParts, folder: string): FilesToAdd | Refusal {
  const originals = gitFiles();
  if (isRefusal(originals)) return originals;
  const { root, prefix } = repositoryAround(folder) ?? { root: folder, prefix: '' };
  const wanted = new Set(GIT_PARTS.filter((part) => parts.has(part)));
  const changes = gitChanges(wanted, originals, {
    studio: prefix.slice(0, -1),
    textOf: (file) => wholeText(root, file),
  });
  return { root, changes: changes.filter(isDue) };
}

async function filesForEditor(
  parts: StudioParts,
  folder: string,
  world: World,
): Promise<(FilesToAdd & Pick<EditorParts, 'toAdd'>) | Refusal> {
  if (!parts.has('editor')) return { root: folder, changes: [], toAdd: [] };
  const schemas = schemaFiles();
  if (isRefusal(schemas)) return schemas;
  const memory = openMemory(folder, storeFor(folder, world));
  const reading = await readStudio(folder, { memory });
  if (isRefusal(reading)) return reading;
  const { changes, toAdd } = editorParts(folder, schemas, reading.files);
  return { root: folder, changes: changes.filter(isDue), toAdd };
}

function isDue({ before, after }: FileToWrite): boolean {
  return before !== after;
}

function refuseToOverwrite(clashes: readonly FileToWrite[], world: World): number {
  world.write(diffOf(clashes));
  const files = clashes.map(({ file }) => file).join(' and ');
  const [are, differ] = clashes.length === 1 ? ['is', 'differs'] : ['are', 'differ'];
  return refuse(world, {
    refused: `nothing was written: ${files} ${are} there already and ${differ} as the diff shows; take over what you want of it, or move what is there away`,
  });
}

function filesOf({ changes }: FilesToAdd): readonly string[] {
  return changes.map(({ file, before }) => `${file}${before === undefined ? '' : ' (changed)'}`);
}

const UNDO = 'To undo it, delete the new files, and what is new in those that were changed.';

function sayAdded(files: readonly string[], areForGit: boolean, { write }: World): void {
  const undo = areForGit ? [UNDO] : [];
  if (files.length === 0) write(printed`All of it is there already.\n`);
  else write(printedLines(['Wrote:', ...files.map((file) => `  ${file}`), ...undo]), 'change');
}

function sayToAdd(settings: EditorParts['toAdd'], { write }: World): void {
  for (const { file, text } of settings)
    write(
      printedLines([
        '',
        `${file} is yours and was left as it is. Add to it:`,
        ...text.trimEnd().split('\n'),
      ]),
    );
}

/** What `git` is to be given first, from where the person stands. */
function commandPlace(root: string, world: World): string {
  const isInside = !relative(root, resolve(world.folder)).startsWith('..');
  return isInside ? 'git' : `git -C ${shellQuoted(root)}`;
}

const TURN_ON: Readonly<Record<GitPart, (git: string) => readonly string[]>> = {
  hooks: (git) => [
    'To turn the hooks on in this clone (git then passes over those in .git/hooks):',
    `  ${git} config core.hooksPath ${HOOKS_FOLDER}`,
    '  and for programs that start git without the PATH of your terminal:',
    `  ${git} config saggar.program "$(command -v saggar)"`,
  ],
  workflow: () => [
    'To make the workflow run: say in it how saggar is installed, commit and push it.',
  ],
};

function nextText(parts: StudioParts, git: string): Printable {
  const texts = GIT_PARTS.filter((part) => parts.has(part)).map((part) => TURN_ON[part](git));
  return printedLines(texts.flatMap((lines) => ['', ...lines]));
}

/** Whether a folder has the settings that make it a studio. */
export function isStudio(folder: string): boolean {
  return wholeText(folder, 'studio.yaml') !== undefined;
}

/** Options that only a new studio takes. */
export function refuseFirstSettings(options: OptionsOf<'init'>): Refusal | undefined {
  const { name, currency, weightUnit } = options;
  const given = Object.entries({ name, currency, 'weight-unit': weightUnit }).find(
    ([, value]) => value !== undefined,
  );
  if (given === undefined) return undefined;
  return { refused: `--${given[0]} is for a new studio; this one has its settings in studio.yaml` };
}
