/** What matters of pieces: how many are ready and where, and how many are under way. */
import { countIn, grouped } from '../../grouping.ts';
import { counted, setApart } from '../../in-words.ts';
import { gradesText } from '../day/day-words.ts';
import type { Row, Table, Verdict } from '../table.ts';
import { figureIn, figuresIn, namesSaid } from './parts.ts';

type PieceCells = Pick<Table, 'columns' | 'rows' | 'totals'>;

/** By product: what is ready, at galleries and under way; all of it from the totals. */
export function stagesVerdict({ columns, rows, totals = {} }: PieceCells): Verdict | undefined {
  if (rows.length === 0) return undefined;
  const count = (key: string): number => countOf(totals, key);
  const [first, second, atGalleries] = [count('first'), count('second'), count('atGalleries')];
  const ready = [
    ...(first + second > 0 ? [`${gradesText({ first, second })} in the studio`] : []),
    ...(atGalleries > 0 ? [`${setApart(String(atGalleries))} at galleries`] : []),
  ];
  const underWay = UNDER_WAY.filter(([key]) => count(key) > 0).map(
    ([key, words]) => `${setApart(String(count(key)))} ${words}`,
  );
  const lead = ready.length === 0 ? 'Nothing is ready' : `Ready: ${ready.join(', ')}`;
  const rest = underWay.length === 0 ? 'nothing is under way' : `under way: ${underWay.join(', ')}`;
  return {
    sentence: `${lead}; ${rest}.`,
    figures: figuresIn(columns, totals, ['first', 'second', 'atGalleries']),
  };
}

const UNDER_WAY = [
  ['greenware', 'greenware'],
  ['bisqueware', 'bisqueware'],
  ['inKiln', 'in the kiln'],
] as const;

/** By place: how many are where, most first. */
export function placesVerdict(
  { columns, rows, totals }: PieceCells,
  nameOf: (place: string) => string,
): Verdict | undefined {
  const places = [...grouped(rows, ({ place }) => String(place))]
    .map(([place, its]) => ({
      place,
      count: countIn(its.map((row) => ({ count: countOf(row, 'count') }))),
    }))
    .sort((one, other) => other.count - one.count);
  if (places.length === 0) return undefined;
  const each = places.map(({ place, count }) => `${setApart(String(count))} ${nameOf(place)}`);
  const all = counted(countIn(places), 'piece');
  return {
    sentence: `${all}: ${namesSaid(each)}.`,
    figures: figureIn(columns, totals, { key: 'count', label: 'Pieces' }),
  };
}

function countOf(row: Row, key: string): number {
  return Number(row[key] ?? 0);
}
