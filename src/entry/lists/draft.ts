/** Proposes the map of a list: by the words of its head, by what its cells say, and by the names in the book. */
import type { Book } from '../../book.ts';
import { nearest } from '../../nearest.ts';
import { textUnder } from '../../read/raw.ts';
import type { Lexicon } from '../lexicon.ts';
import { dayOfDate, numberOfCell } from './cell.ts';
import { DATE_ORDERS, DECIMAL_MARKS, type DateOrder, type Encoding, type ListKind } from './map.ts';
import { mapLine, inYaml } from './row-words.ts';
import type { ListTable } from './table.ts';

/** What is known of a list before there is a map. */
export interface DraftGround {
  readonly table: ListTable;
  readonly encoding: Encoding;
  readonly delimiter: string;
  readonly head: number;
  readonly lexicon: Lexicon;
  readonly book: Book;
}

/** Heads of columns as such lists have them, in small letters without signs; the first that is there counts. */
const HEADS: readonly (readonly [field: string, ...heads: string[]])[] = [
  [
    'unique',
    'order',
    'order id',
    'order number',
    'order no',
    'transaction id',
    'transaction',
    'payment id',
    'reference',
    'receipt',
    'receipt number',
    'invoice',
    'id',
    'number',
    'ref',
    'no',
  ],
  [
    'date',
    'date',
    'order date',
    'paid at',
    'created at',
    'sale date',
    'transaction date',
    'booking date',
    'booked',
    'value date',
    'posted',
    'day',
  ],
  ['buyer', 'buyer', 'customer', 'customer name', 'billing name', 'name', 'full name', 'ship name'],
  [
    'product',
    'sku',
    'product',
    'item',
    'item name',
    'product name',
    'title',
    'lineitem name',
    'article',
  ],
  ['count', 'quantity', 'qty', 'count', 'units', 'lineitem quantity', 'pieces'],
  ['price', 'price', 'item price', 'unit price', 'price each', 'lineitem price'],
  [
    'amount',
    'amount',
    'line total',
    'item total',
    'gross',
    'gross amount',
    'gross sales',
    'subtotal',
  ],
  ['discount', 'discount', 'discount amount', 'coupon'],
  ['shipping', 'shipping', 'postage', 'delivery', 'shipping amount', 'order shipping'],
  ['tax', 'tax', 'sales tax', 'taxes', 'tax amount', 'vat'],
  ['fee', 'fee', 'fees', 'processing fee', 'card fee', 'charges'],
  [
    'total',
    'total',
    'order total',
    'grand total',
    'total charged',
    'total collected',
    'order value',
  ],
  ['net', 'net', 'net amount', 'net total', 'payout amount', 'deposit'],
  ['material', 'material'],
  ['supplier', 'supplier', 'vendor'],
  ['cost', 'cost', 'line cost'],
  ['to', 'payee', 'paid to', 'recipient', 'counterparty'],
  ['out', 'debit', 'paid out', 'withdrawal', 'money out'],
  ['in', 'credit', 'paid in', 'deposit', 'money in'],
  ['note', 'note', 'notes', 'memo', 'description', 'details', 'text'],
];

/** The map as a text; what could not be told by the list is said in comments. */
export function draftOfMap(ground: DraftGround): string {
  const { table, encoding, delimiter, head } = ground;
  const columns = columnsByField(table);
  const kind = kindOfList(columns);
  const unique = columns.get('unique');
  columns.delete('unique');
  const lines = [
    `# How ${table.file} is taken in. Look at each line; schema/lists/README.md says what there is.`,
    kind === undefined
      ? '# No kind: it is only compared, with saggar match. To take it in: kind: spent'
      : `kind: ${kind}`,
    unique === undefined
      ? '# unique: the column that tells rows apart'
      : `unique: ${inYaml(unique)}`,
    ...dateLines(table, columns.get('date')),
    `decimals: ${markOf(table, columns)}`,
    ...(encoding === 'utf-8' ? [] : [`encoding: ${encoding}`]),
    ...(delimiter === ','
      ? []
      : [`delimiter: ${delimiter === '\t' ? 'tab' : JSON.stringify(delimiter)}`]),
    ...(head === 1 ? [] : [`head: ${head}`]),
    'columns:',
    ...[...columns].map(([field, column]) => `  ${field}: ${inYaml(column)}`),
    ...unusedLines(table, columns, unique),
    ...fixedLines(ground, columns),
    ...wordLines(ground, columns),
    '# skip:',
    '#   COLUMN: [values of rows that are passed over, such as cancelled]',
  ];
  return `${lines.join('\n')}\n`;
}

function columnsByField({ columns }: ListTable): Map<string, string> {
  const found = new Map<string, string>();
  const taken = new Set<string>();
  for (const [field, ...heads] of HEADS) {
    const fits = heads.flatMap(
      (head) => columns.find((column) => plainWords(column) === head) ?? [],
    );
    const column = fits.find((each) => !taken.has(each));
    if (column === undefined) continue;
    found.set(field, column);
    taken.add(column);
  }
  return withoutDouble(found);
}

function plainWords(column: string): string {
  return column
    .toLowerCase()
    .replace(/[^a-z]+/g, ' ')
    .trim();
}

/** Where a price is there, an amount of the line would say it again; a kind has not each field. */
function withoutDouble(columns: Map<string, string>): Map<string, string> {
  const kind = kindOfList(columns);
  const isBank = kind === undefined;
  const unfit = isBank
    ? [
        'buyer',
        'product',
        'count',
        'price',
        'discount',
        'shipping',
        'tax',
        'fee',
        'material',
        'supplier',
        'cost',
        'to',
      ]
    : kind === 'sales'
      ? [
          'material',
          'supplier',
          'cost',
          'to',
          'in',
          'out',
          ...(columns.has('price') ? ['amount'] : []),
        ]
      : ['product', 'price', 'amount', 'buyer', 'fee', 'net', 'total', 'to', 'in', 'out'];
  for (const field of unfit) columns.delete(field);
  return columns;
}

function kindOfList(columns: ReadonlyMap<string, string>): ListKind | undefined {
  if (columns.has('material')) return 'bought';
  const isSold = ['product', 'fee', 'buyer', 'shipping', 'total', 'price'].some((field) =>
    columns.has(field),
  );
  return isSold ? 'sales' : undefined;
}

function dateLines({ rows }: ListTable, column: string | undefined): string[] {
  const texts = saidUnder(rows, column);
  const fits = DATE_ORDERS.filter(
    (order: DateOrder) =>
      texts.length > 0 && texts.every((text) => dayOfDate(text, order) !== undefined),
  );
  if (fits.length === 1) return [`dates: ${fits[0] ?? ''}`];
  const which = fits.length === 0 ? DATE_ORDERS : fits;
  return [`# dates: ${which.join(' or ')} (the list does not show which)`];
}

function markOf({ rows }: ListTable, columns: ReadonlyMap<string, string>): string {
  const money = ['price', 'amount', 'total', 'net', 'fee', 'shipping', 'tax', 'in', 'out', 'cost'];
  const texts = money.flatMap((field) => {
    const column = columns.get(field);
    return column === undefined ? [] : saidUnder(rows, column);
  });
  const fits = DECIMAL_MARKS.filter((mark) => texts.every((text) => numberOfCell(text, mark)));
  const [only] = fits;
  return fits.length === 1 && only ? only : 'point   # or comma: the list does not show which';
}

function unusedLines(
  { columns }: ListTable,
  used: ReadonlyMap<string, string>,
  unique = '',
): string[] {
  const named = new Set([...used.values(), unique]);
  const left = columns.filter((column) => !named.has(column));
  return left.length === 0 ? [] : [`  # not used: ${left.join(', ')}`];
}

function fixedLines({ book }: DraftGround, columns: ReadonlyMap<string, string>): string[] {
  if (kindOfList(columns) !== 'sales') return [];
  const channels = [...book.channels.values()];
  const [only, ...others] = channels.filter((channel) => channel.kind === 'online');
  const isSent = columns.has('shipping') && only !== undefined && others.length === 0;
  const ids = channels.map(({ id }) => id).join(', ');
  return ['fixed:', `  channel: ${isSent ? only.id : 'CHANNEL'}   # one of: ${ids}`];
}

/** Words of the list that name nothing of the book, with what they most likely mean. */
function wordLines(
  { table, lexicon }: DraftGround,
  columns: ReadonlyMap<string, string>,
): string[] {
  const lines: string[] = [];
  for (const [field, kind] of [
    ['product', 'products'],
    ['material', 'materials'],
  ] as const) {
    const column = columns.get(field);
    if (column === undefined) continue;
    const names = new Map(
      lexicon.records([kind]).map(({ id, raw }) => [textUnder(raw, 'name').toLowerCase(), id]),
    );
    const words = [...new Set(saidUnder(table.rows, column))];
    const unknown = words.filter(
      (word) => lexicon.find(word)?.kind !== kind && !names.has(word.toLowerCase()),
    );
    if (unknown.length === 0) continue;
    lines.push(
      `  ${field}:`,
      ...unknown.slice(0, MOST_WORDS).map((word) => {
        const meant =
          nearest(word, lexicon.ids([kind])) ?? names.get(nearest(word, names.keys()) ?? '');
        return meant === undefined
          ? `    # ${mapLine(word, 'ID')}`
          : `    ${mapLine(word, meant)}   # is it?`;
      }),
    );
  }
  return lines.length === 0 ? [] : ['words:', ...lines];
}

/** What the cells of a column say, where they say something. */
function saidUnder(rows: ListTable['rows'], column = ''): string[] {
  return rows.map(({ cells }) => cells.get(column) ?? '').filter((text) => text !== '');
}

const MOST_WORDS = 200;
