/** `saggar check`: everything that is wrong in the book, each at its line. */
import { counted } from '../in-words.ts';
import { unkeepable } from '../memory/store.ts';
import type { Problem, Spot } from '../problem.ts';
import { leftoverIn } from '../read/disk.ts';
import { locateIn, type TextOf } from '../read/place.ts';
import { printed, type Printable } from '../render/printable.ts';
import { renderProblems } from '../render/problems.ts';
import { tableHead } from '../report/head.ts';
import { openStudio, type Opened } from './open.ts';
import { refuse, renderOptions } from './show.ts';
import { EXIT, isRefusal, textOption, type Asked, type Command, type World } from './world.ts';
import { sayHalfDone } from './writer.ts';

/** Shows all problems; with `--strict` warnings count as errors, with `--rules` what there is to find. */
export const check: Command = async (asked, world) => {
  if (asked.options['rules'] === true)
    return (await import('./rule-list.ts')).listRules(asked, world);
  const opened = await openStudio(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const problems = await locateIn(opened.textOf, opened.findings);
  world.write(await written(problems, { asked, world, opened }));
  if (opened.commit === undefined) await sayHalfDone(opened.folder, world);
  const notes = [...(await glazeNotes(opened)), ...notesOn(opened.folder, world)];
  for (const note of notes) world.complain(printed`saggar: ${note}\n`);
  opened.save();
  const counted = asked.options['strict'] === true ? problems.length : opened.errors;
  return counted === 0 ? EXIT.fine : EXIT.errors;
};

/** Glazes that are named nowhere, each way once. */
async function glazeNotes({ unnamed, textOf }: Opened): Promise<string[]> {
  const { lines, lots } = unnamed;
  const line = lines.first && (await lineOf(textOf, lines.first));
  const lot = lots.first && (await lineOf(textOf, lots.first));
  return [
    ...(line === undefined
      ? []
      : [
          `${counted(lines.count, 'line')} without a lot or a glaze, where pieces with different glazes were there (first: ${line}), so what is left of each glaze is uncertain; name the glaze, or count what is there by glaze`,
        ]),
    ...(lot === undefined
      ? []
      : [
          `${counted(lots.count, 'lot')} without a glaze, though others of the product have one (first: ${lot}); add the glazes, or an empty list where there are none`,
        ]),
  ];
}

async function lineOf(textOf: TextOf, at: Spot): Promise<string> {
  const finding = { rule: '', severity: 'warning', at, message: '', hint: '' } as const;
  const [found] = await locateIn(textOf, [finding]);
  return found ? `${found.place.file}:${found.place.line}` : at.file;
}

/** What is not wrong with the book, and yet worth a line. */
function notesOn(folder: string, { memory, stamp }: World): string[] {
  const leftover = leftoverIn(folder);
  const because = memory && unkeepable(folder, { place: memory, stamp });
  return [
    ...(leftover === undefined
      ? []
      : [
          `${leftover} is left over from an earlier version: nothing in it is read, and it is safe to delete`,
        ]),
    ...(because === undefined
      ? []
      : [`nothing is remembered between runs, since ${because}; each command reads all files`]),
  ];
}

interface Scene {
  readonly asked: Asked;
  readonly world: World;
  readonly opened: Opened;
}

async function written(
  problems: readonly Problem[],
  { asked, world, opened }: Scene,
): Promise<Printable> {
  const as = textOption(asked, 'as');
  if (as === 'sarif' || as === 'annotations') {
    const { forPrograms } = await import('./check-forms.ts');
    return forPrograms(problems, { as, folder: opened.folder });
  }
  const head = tableHead(opened.book, opened.asOf);
  return renderProblems(problems, head, renderOptions(asked, world));
}
