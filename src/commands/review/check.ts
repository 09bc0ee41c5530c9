/** `saggar check`: everything that is wrong in the book, each at its line. */
import { DOUBTS, READER_RULES, RULES } from '../../check/rules.ts';
import { counted } from '../../in-words.ts';
import { unkeepable } from '../../memory/store.ts';
import type { Problem, Spot } from '../../problem.ts';
import { leftoverIn } from '../../read/disk.ts';
import { repositoryAround } from '../../read/git/around.ts';
import { largeTracked } from '../../read/pictures/tracked.ts';
import { locateIn, type TextOf } from '../../read/place.ts';
import { annotations, sarif } from '../../render/problems/sarif.ts';
import { printed, type Printable } from '../../render/printable.ts';
import { renderProblems } from '../../render/problems/problems.ts';
import { tableHead } from '../../report/head.ts';
import { keptText, problemsSince, type ProblemsSince } from './check-since.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { findInTime } from '../studio/find-studio.ts';
import { openFound, type OpenedBook } from '../studio/open.ts';
import { refuse, sayOfFolder } from '../reports/show.ts';
import { EXIT, isRefusal, type World } from '../world.ts';

/** Shows all problems; with `--strict` warnings count as errors, with `--rules` what there is to find. */
export const check: CommandOf<'check'> = async (asked, world) => {
  if (asked.options.rules) return (await import('./rule-list.ts')).listRules(asked, world);
  const opened = await openFound(await findInTime(asked, world));
  if (isRefusal(opened)) return refuse(world, opened);
  const { strict, since, as = 'text' } = asked.options;
  const found =
    since === undefined
      ? { brought: await locateIn(opened.textOf, opened.findings), kept: [] }
      : await problemsSince(opened, asked, world);
  if (isRefusal(found)) return refuse(world, found);
  const { brought, kept } = found;
  const all = [...brought, ...kept];
  const told = { ...world, ...asked.options };
  if (world.quiet) await sayErrors(all, opened, told);
  else if (since === undefined || as !== 'text') await sayAll(all, opened, told);
  else await sayApart(found, opened, { ...told, since });
  opened.save();
  const wrong = strict ? all.filter(isWrong).length : opened.errors;
  return wrong === 0 ? EXIT.fine : EXIT.errors;
};

/** A figure that is only asked about may well be right. */
function isWrong({ rule }: Problem): boolean {
  return !DOUBTS.has(rule);
}

type CheckWorld = World & OptionsOf<'check'>;

/** What is new whole, as far as there is any, and what was there before in short. */
async function sayApart(
  { brought, kept }: ProblemsSince,
  opened: OpenedBook,
  world: CheckWorld & { readonly since: string },
): Promise<void> {
  if (brought.length > 0 || kept.length === 0) await sayAll(brought, opened, world);
  if (kept.length > 0) world.write(keptText(kept, world.since));
}

async function sayAll(
  problems: readonly Problem[],
  opened: OpenedBook,
  world: CheckWorld,
): Promise<void> {
  world.write(await problemsText(problems, opened, world));
  if (opened.commit === undefined) await sayOfFolder(opened.folder, world);
  const ofFolder = opened.commit ? [] : studioNotes(opened.folder, world);
  const notes = [...(await glazeNotes(opened)), ...ofFolder];
  for (const note of notes) world.complain(printed`saggar: ${note}\n`);
}

/** Of what is wrong only what the status tells of; people are told nothing where that is nothing. */
async function sayErrors(
  problems: readonly Problem[],
  opened: OpenedBook,
  world: CheckWorld,
): Promise<void> {
  const wrong = problems.filter((each) =>
    world.strict === true ? isWrong(each) : each.severity === 'error',
  );
  const isForPeople = (world.as ?? 'text') === 'text';
  if (wrong.length > 0 || !isForPeople) world.write(await problemsText(wrong, opened, world));
}

/** Glazes that are named nowhere, each way once. */
async function glazeNotes({ unnamed, textOf }: OpenedBook): Promise<string[]> {
  const { lines, lots } = unnamed;
  const line = lines.first && (await placeAt(textOf, lines.first));
  const lot = lots.first && (await placeAt(textOf, lots.first));
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

async function placeAt(textOf: TextOf, at: Spot): Promise<string> {
  const finding = { rule: '', severity: 'warning', at, message: '', hint: '' } as const;
  const [found] = await locateIn(textOf, [finding]);
  return found ? `${found.place.file}:${found.place.line}` : at.file;
}

/** What is not wrong with the book, and yet worth a line. */
function studioNotes(folder: string, { memory, stamp }: World): string[] {
  const leftover = leftoverIn(folder);
  const [picture, ...others] = largeTracked(folder);
  const because = memory && unkeepable(folder, { place: memory, stamp });
  return [
    ...(leftover === undefined
      ? []
      : [
          `${leftover} is left over from an earlier version: nothing in it is read, and it is safe to delete`,
        ]),
    ...(picture === undefined
      ? []
      : [
          `${picture.file} has ${(picture.size / 1_000_000).toFixed(1)} MB and is in git${others.length === 0 ? '' : `, and ${counted(others.length, 'other picture')} of more than 1 MB`}: git keeps every version of it; to leave it out from now on: git rm --cached ${picture.file}`,
        ]),
    ...(because === undefined
      ? []
      : [`nothing is remembered between runs, since ${because}; each command reads all files`]),
  ];
}

/** In the forms of hosts of repositories and editors, paths are from the root of the repository that the studio is in. */
async function problemsText(
  problems: readonly Problem[],
  { book, asOf, folder, commit: revision, ...opened }: OpenedBook,
  { as = 'text', width, colour, version, outputIsTerminal: terminal = false }: CheckWorld,
): Promise<Printable> {
  if (as !== 'sarif' && as !== 'annotations')
    return renderProblems(
      problems,
      { ...tableHead(book, asOf), revision, digest: opened.digest },
      { as, width, colour, terminal },
    );
  const prefix = opened.prefix ?? repositoryAround(folder)?.prefix ?? '';
  if (as === 'annotations') return annotations(problems, prefix);
  return sarif(problems, { rules: [...READER_RULES, ...RULES], prefix, version });
}
