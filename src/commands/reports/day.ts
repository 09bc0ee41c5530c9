/** `saggar day`: one screen at the day's end. */
import { uncommittedFiles } from '../../read/git/uncommitted.ts';
import { flow } from '../../reckon/flow.ts';
import type { Printable } from '../../render/printable.ts';
import { renderSheet } from '../../render/terminal/sheet.ts';
import { dayReport, type DayReport } from '../../report/day/day.ts';
import type { CommandOf, OptionsOf } from '../catalogue.ts';
import { findAsked } from '../studio/find-studio.ts';
import { openFound, type OpenedBook } from '../studio/open.ts';
import { rendered, showAnswer, leftOutText } from './show.ts';
import { filedIn } from './filed.ts';
import { saggarCommand, shellQuoted } from '../records/undo.ts';
import { isRefusal, type World } from '../world.ts';

/** The most lines that a day takes: a usual terminal has 24, and the prompt needs one of them. */
const SCREEN = 23;

/** Shows where the studio stands, on one screen; with `--long` everything that there is to say. */
export const day: CommandOf<'day'> = (asked, world) =>
  showAnswer(findAsked(asked, world), world, async (found) => {
    const { options } = asked;
    const uncommitted = uncommittedFiles(found.folder, world.environment);
    const opened = await openFound(found, (book) => flow(book, found.asOf));
    if (isRefusal(opened)) return opened;
    const { book, asOf, errors, folder, save } = opened;
    const git = options.studio === undefined ? 'git' : `git -C ${shellQuoted(folder)}`;
    const report = dayReport(book, flow(book, asOf), {
      errors,
      warnings: warningsIn(opened, world),
      uncommitted: uncommitted?.files.length,
      uncompared: [...(uncommitted?.uncompared ?? [])],
      filed: filedIn(opened),
      typed: ({ program, words }) =>
        program === 'saggar'
          ? saggarCommand(options, words)
          : `${git} add . && ${git} commit -m ${shellQuoted(words)}`,
    });
    return { text: await dayText(report, options, { world, errors }), errors, save };
  });

/** Looking back from an earlier day, what came after it is nothing to be warned of. */
function warningsIn({ findings, asOf }: OpenedBook, { today }: World): number {
  const isBack = asOf < today;
  const counted = findings.filter(
    ({ rule, severity }) => severity === 'warning' && !(isBack && rule === 'future-date'),
  );
  return counted.length;
}

async function dayText(
  { table, sheet }: DayReport,
  options: OptionsOf<'day'>,
  { world, errors }: { readonly world: World; readonly errors: number },
): Promise<Printable> {
  if (options.as !== undefined && options.as !== 'text') return rendered(table, options, world);
  const { width, colour } = world;
  if (options.long) return renderSheet(sheet, { width, colour });
  // What is said on standard error below the page is to be on the same screen.
  const below = errors === 0 ? 0 : Math.ceil(leftOutText(errors).length / width);
  return renderSheet(sheet, { width, colour, height: SCREEN - below });
}
