/** Which table `saggar materials` shows: stock and depletion, one material's history, or where the value is. */
import { addDays, type Day } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import type { Flows } from '../../reckon/flows.ts';
import { USAGE_WINDOW } from '../../reckon/depletion.ts';
import { materialHistory, materialValueTable, materialsTable } from '../../report/materials.ts';
import type { Table } from '../../report/table.ts';
import { unknownId } from '../ids.ts';
import type { Opened } from '../open.ts';
import { askedSpan } from '../span.ts';
import { isRefusal, textOption, type Asked, type Refusal } from '../world.ts';
import type { MakeTable } from '../show.ts';

/** Shows stock and depletion, or with an id the history of one, or with `--where` the value's places. */
export const materials: MakeTable = (opened, asked) => {
  const stray = strayOption(asked);
  if (stray) return stray;
  if (asked.options['where'] === true) return whereTable(asked, opened);
  if (asked.argument !== undefined) return historyTable(opened, asked.argument);
  const window = askedWindow(asked);
  if (typeof window !== 'number') return window;
  return materialsTable(opened.book, flow(opened.book, opened.asOf), window);
};

/** Refuses what would else be passed over in silence, and says what to use. */
function strayOption({ options, argument }: Asked): Refusal | undefined {
  const span = ['year', 'from', 'to'].find((name) => options[name] !== undefined);
  if (options['where'] === true) {
    if (argument !== undefined)
      return {
        refused: `--where is of all materials; leave out ${argument}, or leave out --where`,
      };
    if (options['window'] !== undefined)
      return { refused: '--where measures no usage; leave out --window' };
    return undefined;
  }
  if (argument !== undefined && options['window'] !== undefined)
    return { refused: `--window is of all materials; leave it out, or leave out ${argument}` };
  if (span === undefined) return undefined;
  return {
    refused: `--${span} goes with --where only; for the stock on another day use --as-of, for the days that usage is measured over --window`,
  };
}

function historyTable({ book, asOf }: Opened, id: string): Table | Refusal {
  const known = [...book.materials.keys(), ...book.recipes.keys()];
  return materialHistory(book, flow(book, asOf), id) ?? unknownId('material or recipe', id, known);
}

function whereTable(asked: Asked, { book, asOf }: Opened): Table | Refusal {
  const span = askedSpan(asked, book, asOf);
  if (isRefusal(span)) return span;
  const { from, to } = span;
  const flowTo = (day: Day): Flows => flow(book, day < asOf ? day : asOf);
  const start = from === undefined ? undefined : { from, eve: flowTo(addDays(from, -1)) };
  return materialValueTable(book, flowTo(to), start);
}

function askedWindow(asked: Asked): number | Refusal {
  const text = textOption(asked, 'window');
  if (text === undefined) return USAGE_WINDOW;
  const days = Number(text);
  if (Number.isSafeInteger(days) && days > 0) return days;
  return { refused: `--window takes a number of days above zero, and not "${text}"` };
}
