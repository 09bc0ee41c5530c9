/** `saggar trace WHAT`: what is in a pot, what a bag, mix or firing went into, and who has it. */
import { KINDS } from '../../book.ts';
import { NOUN, withArticle } from '../../check/finding.ts';
import { isDay } from '../../number/date.ts';
import { flow } from '../../reckon/flow.ts';
import { originOf } from '../../reckon/tracing/start.ts';
import { suppliesOf } from '../../reckon/tracing/supplies.ts';
import { faultsTable } from '../../report/tracing/faults.ts';
import { traceTable, type TraceAsked } from '../../report/tracing/trace.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { OpenedBook } from '../studio/open.ts';
import type { Refusal } from '../world.ts';
import { notADay } from '../reports/span.ts';
import type { Report } from '../reports/show.ts';

/** Everything that what is named went into, and all that is in it; or one part of that. */
export const trace: Report<OptionsOf<'trace'>> = {
  table: (opened, { argument = '', options: { only, versionOf, full, as, fault } }) => {
    const { book, asOf } = opened;
    if (fault !== undefined)
      return argument === ''
        ? faultsTable(book, fault, {
            asOf,
            isWhole: full === true || as === 'json' || as === 'csv',
          })
        : { refused: '--fault looks at all loads; leave out what is to be traced, or the fault' };
    if (argument === '')
      return {
        refused: `say what to trace: ${TRACED}; or --fault crazed for what loads have in common`,
      };
    if (versionOf !== undefined && !isDay(versionOf)) return notADay('--version-of', versionOf);
    if (versionOf !== undefined && !book.recipes.has(argument))
      return { refused: `--version-of is of a recipe, and ${argument} is not one` };
    const flows = flow(book, asOf);
    const origin = originOf({ book, flows, id: argument, inForce: versionOf });
    if ('title' in origin)
      return traceTable(book, flows, { origin, only, told: toldAs(as, full === true) });
    return notTraced(opened, argument, origin.kind);
  },
};

/** Programs add up lines, and a page is a list to tick; a terminal has an overview. */
function toldAs(as: string | undefined, isFull: boolean): TraceAsked['told'] {
  if (as === 'json' || as === 'csv') return 'lines';
  return as === 'html' || isFull ? 'whole' : 'folded';
}

function notTraced(
  { book }: OpenedBook,
  id: string,
  kind: (typeof KINDS)[number] | undefined,
): Refusal {
  if (kind === 'recipes') return { refused: `${id} had no version yet on that day` };
  if (kind === 'tests')
    return {
      refused: `test ${id} names no lot, mix, recipe or firing, so there is nothing to trace`,
    };
  if (kind !== undefined)
    return { refused: `${id} is ${withArticle(NOUN[kind])}; trace takes ${TRACED}` };
  const ids = KINDS.flatMap((each) => [...book[each].keys()]);
  const numbers = [...suppliesOf(book).values()].flat().flatMap(({ names }) => names);
  const marks = [...book.pieces.values()].flatMap(({ mark }) => mark ?? []);
  return unknownId('record, bag or mark', id, [...new Set([...ids, ...numbers, ...marks])]);
}

const TRACED =
  'the number on a bag, a mark, or the id of a lot, mix, purchase, firing, recipe, sale, delivery, test, material or product';
