/** Figures of a studio written ten times too large or too small, one at a time, as a slip of the hand does. */
import type { Kind } from '../../src/book.ts';
import type { Raw, RawFile, RawMap } from '../../src/read/raw.ts';

/** A figure that can be written wrong. */
export interface Slippable {
  /** The rule that is to ask about it. */
  readonly rule: string;
  readonly file: string;
  readonly path: readonly (string | number)[];
  readonly text: string;
  /** How many other figures the studio has of just this sort. */
  readonly others: number;
}

type Found = Omit<Slippable, 'file' | 'others'> & { readonly sort: string };
type Entry = readonly [id: string, record: RawMap];

const FIGURES: Partial<Record<Kind, (entry: Entry) => readonly Found[]>> = {
  sales: ([id, record]) => [
    ...rows(record, 'lines').flatMap((line, index) => {
      const of = line['lot'] ?? line['product'] ?? line['class'];
      const sort = `${said(of)} ${said(line['grade'])}`;
      return figure('price-slip', line['price'], { path: [id, 'lines', index, 'price'], sort });
    }),
    ...figure('fee-slip', record['fee'], { path: [id, 'fee'], sort: said(record['channel']) }),
  ],
  bought: ([id, record]) =>
    rows(record, 'lines').flatMap((line, index) => {
      const path = [id, 'lines', index, 'cost'];
      return figure('cost-slip', line['cost'], { path, sort: said(line['material']) });
    }),
  tariffs: ([id, record]) =>
    figure('tariff-slip', record['price'], { path: [id, 'price'], sort: said(record['fuel']) }),
  firings: ([id, record]) => {
    const sort = `${said(record['kiln'])} ${said(record['kind'])}`;
    return [
      ...figure('hours-slip', record['hours'], { path: [id, 'hours'], sort }),
      ...figure('energy-slip', record['energy'], { path: [id, 'energy'], sort }),
    ];
  },
  pieces: ([id, record]) =>
    figure('hours-slip', record['minutes'], {
      path: [id, 'minutes'],
      sort: `${said(record['product'])} ${said(record['made'])}`,
    }),
  spent: ([id, record]) =>
    figure('distance-slip', record['distance'], {
      path: [id, 'distance'],
      sort: `${said(record['to'])} ${said(record['channel'])}`,
    }),
};

/** Every figure of some files that this list knows of. */
export function slippable(files: readonly RawFile[]): readonly Slippable[] {
  const found = files.flatMap(({ kind, file, root }) =>
    Object.entries(root).flatMap(
      ([id, record]) =>
        (kind === 'studio' ? undefined : FIGURES[kind])?.([id, record as RawMap]).map((each) => ({
          ...each,
          file,
        })) ?? [],
    ),
  );
  const counts = new Map<string, number>();
  const keyOf = ({ rule, sort }: Found): string => `${rule} ${sort}`;
  for (const each of found) counts.set(keyOf(each), (counts.get(keyOf(each)) ?? 0) + 1);
  return found.map((each) => ({ ...each, others: (counts.get(keyOf(each)) ?? 1) - 1 }));
}

function figure(
  rule: string,
  value: Raw | undefined,
  { path, sort }: Pick<Found, 'path' | 'sort'>,
): readonly Found[] {
  return typeof value === 'string' && Number.parseFloat(value) > 0
    ? [{ rule, path, sort, text: value }]
    : [];
}

function rows(record: RawMap, key: string): readonly RawMap[] {
  return (record[key] ?? []) as readonly RawMap[];
}

function said(value: Raw | undefined): string {
  return typeof value === 'string' ? value : '';
}

/** The same text with its point a place further on, or further back. */
export function slipped(text: string, isTooLarge: boolean): string {
  const [number = '', ...words] = text.split(' ');
  const [whole = '', part = ''] = number.split('.');
  const digits = whole + part;
  const at = whole.length + (isTooLarge ? 1 : -1);
  const all = at < 1 ? `${'0'.repeat(1 - at)}${digits}` : digits.padEnd(at, '0');
  const point = Math.max(at, 1);
  const moved = `${all.slice(0, point)}.${all.slice(point)}`.replace(/\.$/, '');
  return [moved.replace(/^0+(?=\d)/, ''), ...words].join(' ');
}

/** The files with another text at a path of one of them. */
export function withText(
  files: readonly RawFile[],
  { file, path }: Pick<Slippable, 'file' | 'path'>,
  text: string,
): readonly RawFile[] {
  return files.map((each) =>
    each.file === file ? { ...each, root: withIn(each.root, path, text) as RawMap } : each,
  );
}

function withIn(value: Raw, [step, ...rest]: readonly (string | number)[], text: string): Raw {
  if (step === undefined) return text;
  if (Array.isArray(value))
    return value.map((item: Raw, at) => (at === step ? withIn(item, rest, text) : item));
  const map = value as RawMap;
  return { ...map, [step]: withIn(map[step] ?? '', rest, text) };
}
