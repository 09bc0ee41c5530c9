/** `saggar day`: one screen at the day's end. */
import { flow } from '../reckon/flow.ts';
import { uncommittedFiles } from '../read/uncommitted.ts';
import { render } from '../render/render.ts';
import { renderSheet } from '../render/sheet.ts';
import { dayReport, type DayAround, type DayReport, type Step } from '../report/day.ts';
import { openStudio, type Opened } from './open.ts';
import { refuse, renderOptions, standingInTheWay } from './show.ts';
import { quoted, saggarCommand } from './take-back.ts';
import { EXIT, isRefusal, type Asked, type Command, type World } from './world.ts';

/** The most lines that a day takes: a usual terminal has 24, and the prompt needs one of them. */
const SCREEN = 23;

/** Shows where the studio stands, on one screen; with `--long` everything that there is to say. */
export const day: Command = async (asked, world) => {
  const opened = await openStudio(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const report = dayReport(
    opened.book,
    flow(opened.book, opened.asOf),
    around(asked, world, opened),
  );
  world.write(await shown(report, asked, { world, errors: opened.errors }));
  if (opened.errors === 0) return EXIT.fine;
  world.complain(standingInTheWay(opened.errors));
  return EXIT.errors;
};

function around(asked: Asked, world: World, opened: Opened): DayAround {
  return {
    errors: opened.errors,
    warnings: warningsIn(opened, world),
    uncommitted: uncommittedFiles(opened.folder)?.length,
    typed: (step) => typed(step, asked, opened),
  };
}

/** Looking back from an earlier day, what came after it is nothing to be warned of. */
function warningsIn({ findings, asOf }: Opened, { today }: World): number {
  const isBack = asOf < today;
  const counted = findings.filter(
    ({ rule, severity }) => severity === 'warning' && !(isBack && rule === 'future-date'),
  );
  return counted.length;
}

function typed({ program, words }: Step, asked: Asked, { folder }: Opened): string {
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
): Promise<string> {
  const options = renderOptions(asked, world);
  if (options.as !== 'text') return render(table, options);
  if (asked.options['long'] === true) return renderSheet(sheet, options);
  // What is said on standard error below the page is to be on the same screen.
  const below = errors === 0 ? 0 : Math.ceil(standingInTheWay(errors).length / world.width);
  return renderSheet(sheet, { ...options, height: SCREEN - below });
}
