/** Which table `saggar income` shows: what a period earned, by what was asked. */
import { INCOME_GROUPS } from '../../groups.ts';
import { flow } from '../../reckon/flow.ts';
import { incomeTable } from '../../report/income.ts';
import { unknownWord } from '../ids.ts';
import { askedYear } from '../span.ts';
import { isRefusal, textOption } from '../world.ts';
import type { MakeTable } from '../show.ts';

/** Shows the income of the business year, or of the days that are asked for. */
export const income: MakeTable = ({ book, asOf }, asked) => {
  const period = askedYear(asked, book, asOf);
  if (isRefusal(period)) return period;
  const word = textOption(asked, 'by') ?? 'product';
  const by = INCOME_GROUPS.find((group) => group === word);
  if (!by) return unknownWord('--by', word, INCOME_GROUPS);
  return incomeTable(book, flow(book, asOf), { by, period });
};
