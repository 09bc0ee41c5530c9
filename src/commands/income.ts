/** `saggar income`: what a year earned by product, channel, month, class or buyer. */
import { INCOME_GROUPS } from '../groups.ts';
import { flow } from '../reckon/flow.ts';
import { incomeTable } from '../report/income.ts';
import { unknownWord } from './ids.ts';
import { showReport } from './show.ts';
import { askedYear } from './span.ts';
import { isRefusal, textOption, type Command } from './world.ts';

/** Shows the income of the business year, or of the days that are asked for. */
export const income: Command = (asked, world) =>
  showReport(asked, world, ({ book, asOf }) => {
    const period = askedYear(asked, book, asOf);
    if (isRefusal(period)) return period;
    const word = textOption(asked, 'by') ?? 'product';
    const by = INCOME_GROUPS.find((group) => group === word);
    if (!by) return unknownWord('--by', word, INCOME_GROUPS);
    return incomeTable(book, flow(book, asOf), { by, period });
  });
