/** The way of every command that changes files: say what would be wrong, show it, write it, say how to undo it. */
import { effectLines } from '../../entry/effect.ts';
import type { ChangePlan } from '../../entry/plan.ts';
import type { UndoStep } from '../../entry/undoing/undo.ts';
import type { Problem } from '../../problem.ts';
import { visible } from '../../render/escape.ts';
import { printed, printedLayout, printedLines, type Printable } from '../../render/printable.ts';
import { problemText } from '../../render/problems/problems.ts';
import { unifiedDiff, type FileChange } from '../../write/diff.ts';
import { hiddenAmong } from '../../read/git/checkout.ts';
import { applyPlan } from '../../write/store.ts';
import { refreshIds } from '../studio/editor.ts';
import type { OpenedFiles } from '../studio/open.ts';
import type { ChangeOptions } from '../options.ts';
import { invoiceKept } from '../papers/invoice-kept.ts';
import { isInWords, say, tellChange } from './told.ts';
import { undoText } from './undo.ts';
import { EXIT, type Asked, type World } from '../world.ts';
import { notWritten, writerIn } from './writer.ts';

/** A change that is to be carried out, and the words for it. */
export interface DueChange {
  readonly plan: Pick<ChangePlan, 'changes'> & Partial<ChangePlan>;
  /** The records as they will stand; shown above the effect. */
  readonly shown: readonly string[];
  /** What was done, once it is: `Added s260308kt to sales/2026-03.yaml`. */
  readonly done: string;
  /** What undoes it, asked for only once it is written. */
  readonly undo: () => readonly UndoStep[];
  /** What was typed, to be given back where it is not written. */
  readonly typed?: string;
  /** Absent means yes. */
  readonly agreed?: Agreed | undefined;
}

/** Asks whether to write, once everything is shown. */
export type Agreed = (due: {
  /** What it will change, in lines. */
  readonly effect: readonly string[];
  /** What is odd about it. */
  readonly problems: readonly Problem[];
}) => Promise<boolean>;

/** Shows problems for people, on standard error. */
export function complainOf(world: World, problems: readonly Problem[]): void {
  if (problems.length === 0) return;
  world.complain(problemText(problems, { width: world.width, colour: false }));
}

/** Where a change is made, and what was asked. */
export interface Scene<O extends object = ChangeOptions> {
  readonly asked: Asked<O>;
  readonly world: World;
  readonly opened: OpenedFiles;
}

/**
 * Carries a plan out, or with `--dry-run` prints its exact diff. What would be wrong is shown first;
 * the caller has made sure that nothing of it forbids the change.
 */
export async function carryOut(scene: Scene, due: DueChange): Promise<number> {
  const { asked, world } = scene;
  const { plan, shown } = due;
  const kept = invoiceKept(plan) ?? hiddenFile(scene.opened.folder, plan.changes);
  if (kept !== undefined) return notWritten(world, kept);
  const isTried = asked.options.dryRun === true;
  const effect = isTried ? [] : effectOf(plan);
  complainOf(world, plan.problems ?? []);
  if (isTried) {
    if (isInWords(scene)) world.write(diffOf(plan.changes));
    else tellChange(scene, { ...plan, written: false });
    return EXIT.fine;
  }
  for (const text of shown) say(scene, printedLines(text.split('\n').slice(0, -1)));
  for (const line of effect) say(scene, printed`  ${line}\n`);
  const { problems = [] } = plan;
  if ((await due.agreed?.({ effect, problems })) === false) {
    world.complain(printedLayout(due.typed ?? 'Nothing was saved.\n'));
    return EXIT.errors;
  }
  return write(scene, due);
}

/** Why no new file may take the path of one that a sparse checkout leaves out. */
function hiddenFile(folder: string, changes: readonly FileChange[]): string | undefined {
  const files = changes.flatMap(({ file, before }) => (before === undefined ? [file] : []));
  const hidden = hiddenAmong(folder, files);
  if (hidden === undefined) return undefined;
  return `${hidden} is committed, and this checkout, which is sparse, leaves it out; have it here first: git sparse-checkout disable`;
}

function effectOf({ sides, touched, held, holds }: Partial<ChangePlan>): readonly string[] {
  if (!sides || !touched || !held || !holds) return [];
  return effectLines({ ...sides, held: held(), holds: holds() }, touched);
}

async function write(scene: Scene, { plan, done, undo, typed = '' }: DueChange): Promise<number> {
  const { world, opened } = scene;
  const applied = await applyPlan(opened.folder, plan.changes, writerIn(world));
  if ('refused' in applied) {
    world.complain(printedLayout(typed));
    return notWritten(world, applied.refused);
  }
  keepAfter(plan, opened);
  await refreshIds({ folder: opened.folder, files: opened.reading.files, plan }, world);
  sayParted(applied.parted ?? [], world);
  const steps = undo();
  const undone = steps.length > 0 ? undoText(scene.asked.options, steps).trimStart() : undefined;
  if (isInWords(scene)) {
    world.write(printed`${done}.\n`, 'change');
    sayUndo(scene, steps);
  } else tellChange(scene, { ...plan, written: true, undo: undone });
  return EXIT.fine;
}

function sayUndo({ asked, world }: Scene, steps: readonly UndoStep[]): void {
  if (steps.length === 0) return;
  const notes = steps.flatMap(({ note }) => (note === undefined ? [] : [` (${note})`]));
  const text = undoText(asked.options, steps);
  world.write(printedLayout(`Undo${notes.join('')}:${text.startsWith('\n') ? '' : ' '}${text}\n`));
}

/** The change is made: where nothing can be kept of it, the next run reads all afresh. */
function keepAfter({ after, edited = [] }: Partial<ChangePlan>, { saveAs }: OpenedFiles): void {
  try {
    if (after) saveAs(after, edited);
  } catch {
    // What was kept before is not what it should be.
  }
}

function sayParted(files: readonly string[], { complain }: World): void {
  for (const file of files)
    complain(printed`saggar: ${file} has another name on the disk, which keeps the old text\n`);
}

/** The diffs of some files below each other; a line end in a file's name begins no line. */
export function diffOf(changes: readonly FileChange[]): Printable {
  const diffs = changes.map((change) => unifiedDiff({ ...change, file: visible(change.file) }));
  return printedLayout(diffs.join(''));
}
