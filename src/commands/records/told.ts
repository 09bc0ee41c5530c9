/** How a command that writes tells of it: in words, as one JSON document, or by new ids alone. */
import { changedRecords } from '../../entry/changed.ts';
import { jsonDocument } from '../../render/json.ts';
import { printedLayout, printedLines, type Printable } from '../../render/printable.ts';
import type { FileChange } from '../../write/diff.ts';
import type { OpenedBook } from '../studio/open.ts';
import type { World } from '../world.ts';

/** A change, and what is told of it to a program. */
export interface ToldChange {
  readonly changes: readonly FileChange[];
  /** Whether it was made; a dry run makes none. */
  readonly written: boolean;
  /** The command that undoes it; absent where there is none. */
  readonly undo?: string | undefined;
}

/** Who asked for a change, and how it is to be told. */
interface ToldTo {
  readonly asked: { readonly options: { readonly as?: string | undefined } };
  readonly world: World;
}

/** Whether a command tells of its work in words: neither a program reads it, nor is it to be quiet. */
export function isInWords({ asked, world }: ToldTo): boolean {
  return asked.options.as !== 'json' && world.quiet !== true;
}

/** Words on standard output, for people alone. */
export function say(scene: ToldTo, text: Printable): void {
  if (isInWords(scene)) scene.world.write(text, 'words');
}

/** Tells of a change to whoever wants no words: a document to programs, else the ids that are new. */
export function tellChange(
  { asked, world, opened }: ToldTo & { readonly opened: Pick<OpenedBook, 'book' | 'asOf'> },
  change: ToldChange,
): void {
  const { changes, written, undo = null } = change;
  const records = changedRecords(changes);
  const fresh = records.filter(({ became }) => became === 'added');
  const text =
    asked.options.as !== 'json'
      ? printedLines(fresh.map(({ id }) => id))
      : printedLayout(
          jsonDocument({
            report: 'change',
            studio: opened.book.studio.name,
            asOf: opened.asOf,
            written,
            records,
            files: changes.map(({ file }) => file),
            undo,
          }),
        );
  world.write(text, written && asked.options.as === 'json' ? 'change' : undefined);
}
