/** What becomes of the pieces that are gone: sold or missing, as it is said, and what is left. */
import type { Refused } from '../../write/parts.ts';
import type { GoneRow } from './closing.ts';
import { fitting, wareName, type Ware } from './count.ts';
import type { SaidLines, SoldWare } from './said.ts';

/** Pieces that were sold, that are missing, and those of which neither is said. */
export interface Fates {
  readonly sold: readonly SoldWare[];
  readonly missing: readonly Ware[];
  readonly left: readonly Ware[];
}

/** What is said of them. */
export interface SaidOf {
  readonly sold: SaidLines;
  readonly missing: SaidLines;
}

interface Open {
  readonly row: GoneRow;
  left: number;
}

/** Finds the gone pieces of each line; refused where a line has more of them than are gone. */
export function decide(gone: readonly GoneRow[], { sold, missing }: SaidOf): Fates | Refused {
  if (sold.all && missing.all)
    return { refused: 'all pieces can be sold or missing, not both; keep one "all"' };
  const open = gone.map((row) => ({ row, left: row.gone }));
  const parts = { sold: [] as SoldWare[], missing: [] as Ware[] };
  const named = [
    ...sold.lines.map((ware) => ({ to: 'sold', ware }) as const),
    ...missing.lines.map((ware) => ({ to: 'missing', ware }) as const),
  ];
  for (const { to, ware } of named) {
    const found = take(open, ware);
    if ('refused' in found) return { refused: `--${to}: ${found.refused}` };
    parts[to].push(...found);
  }
  const rest = open.filter(({ left }) => left > 0).map(({ row, left }) => wareIn(row, left));
  return {
    sold: sold.all ? [...parts.sold, ...rest] : parts.sold,
    missing: missing.all ? [...parts.missing, ...rest] : parts.missing,
    left: sold.all || missing.all ? [] : rest,
  };
}

function wareIn({ product, glaze, grade }: GoneRow, count: number): Ware {
  return { product, glaze, grade, count };
}

function take(open: readonly Open[], ware: SoldWare): SoldWare[] | Refused {
  const rows = open.map((each) => ({ ...each.row, each }));
  const fits = fitting(rows, ware);
  const there = fits.reduce((sum, { each }) => sum + each.left, 0);
  if (ware.count > there)
    return { refused: `${ware.count} ${wareName(ware)}, but ${there} are gone and not spoken for` };
  const found: SoldWare[] = [];
  let left = ware.count;
  for (const { each, glaze } of fits) {
    const count = Math.min(left, each.left);
    each.left -= count;
    left -= count;
    if (count > 0) found.push({ ...ware, glaze: ware.glaze ?? glaze, count });
  }
  return found;
}
