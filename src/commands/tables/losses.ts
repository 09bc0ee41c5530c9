/** Which table `saggar losses` shows: loss rates, or each firing beside its limits. */
import { LOSS_GROUPS } from '../../groups.ts';
import { flow } from '../../reckon/flow.ts';
import { lossChartTable, lossesTable } from '../../report/losses.ts';
import { unknownWord } from '../ids.ts';
import { askedSpan } from '../span.ts';
import { isRefusal, textOption } from '../world.ts';
import type { MakeTable } from '../show.ts';

/** Shows loss rates by what is asked for, or with `--chart` which firings are out of line. */
export const losses: MakeTable = ({ book, asOf }, asked) => {
  const span = askedSpan(asked, book, asOf);
  if (isRefusal(span)) return span;
  const flows = flow(book, asOf);
  if (asked.options['chart'] === true) return lossChartTable(book, flows, span);
  const word = textOption(asked, 'by') ?? 'firing';
  const by = LOSS_GROUPS.find((group) => group === word);
  return by ? lossesTable(book, flows, { by, span }) : unknownWord('--by', word, LOSS_GROUPS);
};
