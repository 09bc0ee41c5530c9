/** `saggar materials`: stock and depletion, one material's history, or where the value is. */
import { earlierDay } from '../../number/date.js';
import { addDays, type Day } from '../../number/date.ts';
import { USAGE_WINDOW } from '../../reckon/stock/depletion.ts';
import { flow } from '../../reckon/flow.ts';
import type { Flows } from '../../reckon/flows.ts';
import { daysLeftCharts, materialValueCharts, onHandCharts } from '../../report/charts/stock.ts';
import { spanInWords } from '../../report/head.ts';
import { materialHistory, materialValueTable, materialsTable } from '../../report/materials.ts';
import type { Table } from '../../report/table.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { OpenedBook } from '../studio/open.ts';
import type { SpanOptions } from '../options.ts';
import type { Report } from './show.ts';
import { askedSpan } from './span.ts';
import { isRefusal, type Asked, type Refusal } from '../world.ts';

type MaterialsOptions = Partial<OptionsOf<'materials'>>;

/** Stock and depletion, or with an id the history of one, or with `--where` the value's places. */
export const materials: Report<OptionsOf<'materials'>> = {
  table: (opened, asked) => {
    const { book, asOf } = opened;
    const { argument, options } = asked;
    const stray = strayOption(asked);
    if (stray) return stray;
    if (options.where) return whereTable(options, opened);
    if (argument !== undefined) {
      const known = [...book.materials.values(), ...book.recipes.values()];
      const history = materialHistory(book, flow(book, asOf), argument);
      return history ?? unknownId('material or recipe', argument, known);
    }
    const window = askedWindow(options);
    return typeof window === 'number' ? materialsTable(book, flow(book, asOf), window) : window;
  },
  charts: ({ book, asOf }, { argument, options }, table) => {
    if (argument !== undefined) return onHandCharts(table);
    if (!options.where) return daysLeftCharts(table);
    const span = askedSpan(options, book, asOf);
    return isRefusal(span) ? [] : materialValueCharts(table, spanInWords(span));
  },
};

/** Refuses what would else be passed over in silence, and says what to use. */
function strayOption({ options, argument }: Asked<MaterialsOptions>): Refusal | undefined {
  const span = (['year', 'from', 'to'] as const).find((name) => options[name] !== undefined);
  if (options.where) {
    if (argument !== undefined)
      return {
        refused: `--where is of all materials; leave out ${argument}, or leave out --where`,
      };
    if (options.window !== undefined)
      return { refused: '--where measures no usage; leave out --window' };
    return undefined;
  }
  if (argument !== undefined && options.window !== undefined)
    return { refused: `--window is of all materials; leave it out, or leave out ${argument}` };
  if (span === undefined) return undefined;
  return {
    refused: `--${span} goes with --where only; for the stock on another day use --as-of, for the days that usage is measured over --window`,
  };
}

function whereTable(options: SpanOptions, { book, asOf }: OpenedBook): Table | Refusal {
  const span = askedSpan(options, book, asOf);
  if (isRefusal(span)) return span;
  const { from, to } = span;
  const flowTo = (day: Day): Flows => flow(book, earlierDay(day, asOf));
  const start = from === undefined ? undefined : { from, eve: flowTo(addDays(from, -1)) };
  return materialValueTable(book, flowTo(to), start);
}

function askedWindow({ window: text }: MaterialsOptions): number | Refusal {
  if (text === undefined) return USAGE_WINDOW;
  const days = Number(text);
  if (Number.isSafeInteger(days) && days > 0) return days;
  return { refused: `--window takes a number of days above zero, and not "${text}"` };
}
