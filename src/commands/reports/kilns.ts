/** `saggar kilns`: how far the parts of all kilns are worn, or one kiln's log. */
import type { DaysUpTo } from '../../among.ts';
import { addDays } from '../../number/date.ts';
import { wearCharts } from '../../report/charts/firings.ts';
import { kilnCharts, kilnTable } from '../../report/making/kiln.ts';
import { KILN_DAYS, kilnsTable } from '../../report/making/kilns.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { SpanOptions } from '../options.ts';
import type { OpenedBook } from '../studio/open.ts';
import { isRefusal, type Refusal } from '../world.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';

/** Every part, or with an id one kiln's firings. */
export const kilns: Report<OptionsOf<'kilns'>> = {
  table: (opened, { argument, options }) => {
    const days = askedDays(opened, options);
    if (isRefusal(days)) return days;
    const { book, asOf } = opened;
    if (argument === undefined) return kilnsTable(book, asOf, days);
    const kiln = book.kilns.get(argument);
    return kiln ? kilnTable(book, kiln, { asOf, days }) : notAKiln(opened, argument);
  },
  charts: (opened, { argument, options }, table) => {
    const days = askedDays(opened, options);
    if (isRefusal(days)) return [];
    const { book, asOf } = opened;
    const kilns = [...book.kilns.values()].filter(({ id }) => id === (argument ?? id));
    const drawn = kilns.flatMap((kiln) =>
      kilnCharts(book, kiln, { asOf, days }).map((chart) => ({
        ...chart,
        title: argument === undefined ? `${kiln.name}: ${chart.title}` : chart.title,
      })),
    );
    return argument === undefined ? [...wearCharts(table), ...drawn] : drawn;
  },
};

/** The last days where nothing is asked. */
function askedDays({ book, asOf }: OpenedBook, options: SpanOptions): DaysUpTo | Refusal {
  const { year, from, to } = options;
  const isAsked = (year ?? from ?? to) !== undefined;
  return isAsked
    ? askedSpan(options, book, asOf)
    : { from: addDays(asOf, 1 - KILN_DAYS), to: asOf };
}

function notAKiln({ book }: OpenedBook, id: string): Refusal {
  return unknownId('kiln', id, book.kilns.values());
}
