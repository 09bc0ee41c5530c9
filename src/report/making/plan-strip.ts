/** A plan's next two weeks as a strip of days: what is made, what is in which kiln, what is due. */
import { countIn } from '../../grouping.ts';
import type { Book } from '../../book.ts';
import { dayFromNumber, dayNumber } from '../../number/date.ts';
import type { WorkPlan } from '../../reckon/planning/plan.ts';
import { spanInWords, tableHead } from '../head.ts';
import type { Chart } from '../page.ts';
import type { Row } from '../table.ts';
import { firingText } from './plan-words.ts';

const DAYS = 14;

/** A stretch of days with what is done on them. */
interface StripRow {
  readonly what: string;
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

/** The strip; nothing where nothing is done. */
export function planStrip(book: Book, plan: WorkPlan): readonly Chart[] {
  const { today } = plan.calendar;
  const last = today + DAYS - 1;
  const stretches = [...makings(plan), ...firings(plan), ...dues(plan)].filter(
    ({ from }) => from <= last,
  );
  if (stretches.length === 0) return [];
  const rows = stretches
    .sort((one, other) => one.from - other.from)
    .map(({ what, from, to, count }): Row => {
      return { what, count, from: from - today, to: Math.min(to, last) - today };
    });
  const [first, end] = [dayFromNumber(today), dayFromNumber(last)];
  const title = 'The next two weeks';
  return [
    {
      ...{ shape: 'strip', title, span: spanInWords({ from: first, to: end }), firstDay: first },
      ...{ label: 'what', value: 'count', bounds: { low: 'from', high: 'to' } },
      table: {
        report: 'plan-strip',
        title,
        ...tableHead(book, first),
        columns: [
          { key: 'what', title: 'What', type: 'text' },
          { key: 'count', title: 'Pieces', type: 'count' },
          { key: 'from', title: 'First day, from today', type: 'count' },
          { key: 'to', title: 'Last day, from today', type: 'count' },
        ],
        rows,
        notes: [],
      },
    },
  ];
}

function makings({ fitting: { schedule } }: WorkPlan): StripRow[] {
  const found = new Map<string, StripRow>();
  for (const { sort, day, count } of schedule.making) {
    const known = found.get(sort.name) ?? {
      what: `Make ${sort.name}`,
      from: day,
      to: day,
      count: 0,
    };
    found.set(sort.name, { ...known, to: day, count: known.count + count });
  }
  return [...found.values()];
}

function firings({ fitting: { schedule } }: WorkPlan): StripRow[] {
  return schedule.loads.map(({ kiln, kind, cone, day, out, pieces }) => {
    const count = countIn(pieces);
    return { what: `${kiln.id}: ${firingText(kind, cone)}`, from: day, to: out, count };
  });
}

/** What is due, by order or fair and day. */
function dues({ goals }: WorkPlan): StripRow[] {
  const found = new Map<string, StripRow>();
  for (const { source, by, due, count } of goals.flatMap(({ demands }) => demands)) {
    if (due === undefined) continue;
    const day = dayNumber(due);
    const what = source === 'asked' ? 'Asked for' : `Due: ${source} ${by}`;
    const known = found.get(`${due} ${what}`) ?? { what, from: day, to: day, count: 0 };
    found.set(`${due} ${what}`, { ...known, count: known.count + count });
  }
  return [...found.values()];
}
