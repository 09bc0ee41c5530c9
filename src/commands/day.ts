/** `saggar day`: one screen at the day's end. */
import { uncommittedFiles, type Uncommitted } from '../read/git/uncommitted.ts';
import type { Printable } from '../render/printable.ts';
import type { DayReport, NextStep } from '../report/day.ts';
import type { Found } from './find-studio.ts';
import type { Opened } from './open.ts';
import { renderOptions, showAnswer, standingInTheWay, type Answer } from './show.ts';
import { quoted, saggarCommand } from './take-back.ts';
import { isRefusal, type Asked, type Command, type Refusal, type World } from './world.ts';

/** The most lines that a day takes: a usual terminal has 24, and the prompt needs one of them. */
const SCREEN = 23;

/** Shows where the studio stands, on one screen; with `--long` everything that there is to say. */
export const day: Command = (asked, world) => {
  return showAnswer(asked, world, (found) => {
    const uncommitted = uncommittedFiles(found.folder, world.environment);
    return dayAnswer(found, asked, { world, uncommitted });
  });
};

/** What a day's page says beside what is in the book. */
interface Beside {
  readonly world: World;
  /** What git has not committed as it is; undefined where there is no git. */
  readonly uncommitted: Uncommitted | undefined;
}

async function dayAnswer(
  found: Found,
  asked: Asked,
  { world, uncommitted }: Beside,
): Promise<Answer | Refusal> {
  const { openFound } = await import('./open.ts');
  const { flow } = await import('../reckon/flow.ts');
  const { dayReport } = await import('../report/day.ts');
  const { filedIn } = await import('./tables/filed.ts');
  const opened = await openFound(found, (book) => flow(book, found.asOf));
  if (isRefusal(opened)) return opened;
  const { book, asOf, errors } = opened;
  const around = {
    errors,
    warnings: warningsIn(opened, world),
    uncommitted: uncommitted?.files.length,
    uncompared: [...(uncommitted?.uncompared ?? [])],
    filed: filedIn(opened),
    typed: (step: NextStep) => typed(step, asked, opened),
  };
  const report = dayReport(book, flow(book, asOf), around);
  const text = await shown(report, asked, { world, errors });
  return { text, errors, save: opened.save };
}

/** Looking back from an earlier day, what came after it is nothing to be warned of. */
function warningsIn({ findings, asOf }: Opened, { today }: World): number {
  const isBack = asOf < today;
  const counted = findings.filter(
    ({ rule, severity }) => severity === 'warning' && !(isBack && rule === 'future-date'),
  );
  return counted.length;
}

function typed({ program, words }: NextStep, asked: Asked, { folder }: Opened): string {
  if (program === 'saggar') return saggarCommand({ asked }, words);
  const git = asked.options['studio'] === undefined ? 'git' : `git -C ${quoted(folder)}`;
  return `${git} add . && ${git} commit -m ${quoted(words)}`;
}

interface Page {
  readonly world: World;
  readonly errors: number;
}

async function shown(
  { table, sheet }: DayReport,
  asked: Asked,
  { world, errors }: Page,
): Promise<Printable> {
  const options = renderOptions(asked, world);
  if (options.as !== 'text') return (await import('../render/render.ts')).render(table, options);
  const { renderSheet } = await import('../render/sheet.ts');
  if (asked.options['long'] === true) return renderSheet(sheet, options);
  // What is said on standard error below the page is to be on the same screen.
  const below = errors === 0 ? 0 : Math.ceil(standingInTheWay(errors).length / world.width);
  return renderSheet(sheet, { ...options, height: SCREEN - below });
}
