/** `saggar check`: everything that is wrong in the book, each at its line. */
import { locate } from '../read/place.ts';
import { renderProblems } from '../render/problems.ts';
import { tableHead } from '../report/head.ts';
import { openStudio } from './open.ts';
import { refuse, renderOptions } from './show.ts';
import { EXIT, isRefusal, type Command } from './world.ts';

/** Shows all problems; with `--strict` warnings count as errors. */
export const check: Command = async (asked, world) => {
  const opened = await openStudio(asked, world);
  if (isRefusal(opened)) return refuse(world, opened);
  const problems = await locate(opened.folder, opened.findings);
  const head = tableHead(opened.book, opened.asOf);
  world.write(await renderProblems(problems, head, renderOptions(asked, world)));
  const counted = asked.options['strict'] === true ? problems.length : opened.errors;
  return counted === 0 ? EXIT.fine : EXIT.errors;
};
