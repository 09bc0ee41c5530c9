/** What is asked of each kind beside what it needs, and what carries over from the last similar record. */
import type { Book, Kind } from '../../book.ts';
import {
  isList,
  isMap,
  textUnder,
  valueAt,
  type Path,
  type Raw,
  type RawMap,
} from '../../read/raw.ts';
import { isPaidOver } from '../../reckon/sales/paid.ts';
import { compareTexts } from '../../text-order.ts';
import type { Lexicon } from '../lexicon.ts';
import { withSaleTax } from '../sale-tax.ts';
import type { Ground } from './ground.ts';

/**
 * Names of options in the order in which they are asked: whatever most records of the kind need for their
 * figures. One with `?` is asked only where the last similar record has it, `advance?` also where the sale
 * may use one. All others are offered in one step at the end.
 */
export const ASKED: Readonly<Record<Kind, readonly string[]>> = {
  materials: ['name', 'kind', 'unit', 'reorder-at', 'supplier'],
  recipes: ['name', 'kind', 'cone', 'base', 'addition'],
  products: [
    ...['name', 'clay-material', 'clay-each', 'glaze', 'price', 'wholesale', 'second', 'minutes'],
    'packing?',
  ],
  classes: ['name', 'starts', 'sessions', 'places', 'fee'],
  kilns: ['name', 'fuel', 'power', 'duty', 'space', 'wear?'],
  tariffs: ['fuel', 'from', 'price', 'per', 'band?'],
  channels: ['name', 'kind', 'commission', 'fee-percent', 'fee-each', 'tax-place'],
  bought: ['date', 'supplier', 'invoice', 'line', 'freight', 'discount?', 'tax', 'paid'],
  reclaimed: ['date', 'material', 'quantity'],
  mixed: ['date', 'recipe', 'base-weight', 'water?', 'gravity?', 'yields'],
  pieces: ['date', 'product', 'made', 'glaze', 'minutes', 'maker?'],
  firings: [
    ...['date', 'kind', 'kiln', 'cone', 'started?', 'in', 'hours', 'energy'],
    ...['meter-before', 'meter-after', 'fuel-used', 'tended', 'supply?'],
  ],
  used: ['date', 'material', 'quantity', 'for'],
  counted: ['date', 'material', 'piece'],
  orders: ['date', 'buyer', 'due', 'channel?', 'line'],
  sales: [
    ...['date', 'channel', 'statement', 'buyer?', 'line', 'shipping', 'tax?'],
    ...['advance?', 'card', 'paid'],
  ],
  advances: ['date', 'for', 'amount', 'channel', 'buyer', 'number', 'order', 'for-order'],
  consigned: ['date', 'channel', 'sent', 'back', 'missing?'],
  fairs: ['date', 'last', 'name', 'channel', 'hours?', 'place', 'take?'],
  spent: ['date', 'to', 'for', 'tax-place', 'amount', 'channel?', 'fair?', 'kiln?', 'paid'],
  tests: ['date', 'kind', 'recipe', 'lot', 'result'],
  filed: ['date', 'period', 'sheet', 'line'],
};

/**
 * Options whose value is likely to be that of the last similar record. Similar is what has the same
 * values wherever these are known already, so the order counts.
 */
export const CARRIED: Readonly<Partial<Record<Kind, readonly string[]>>> = {
  bought: ['supplier'],
  reclaimed: ['material'],
  mixed: ['recipe', 'base-weight'],
  pieces: ['product'],
  firings: ['kind', 'kiln', 'cone'],
  used: ['material', 'for'],
  orders: ['channel'],
  sales: ['channel'],
  advances: ['for', 'channel'],
  consigned: ['channel'],
  fairs: ['name', 'channel', 'place'],
  spent: ['to', 'for'],
  tests: ['kind'],
  filed: ['sheet'],
  tariffs: ['fuel', 'per'],
};

type Fits = (fields: RawMap, ground: Ground) => boolean;

const OF_LABOUR: Fits = (_, { opened }) => opened.book.studio.labourRate !== undefined;
const NOT_READ_YET: Fits = ({ load }) => isUnloaded(load);
const AT_A_TILL: Fits = ({ kind }) => kind !== 'consignment' && kind !== 'wholesale';

const ONLY_WHERE: Readonly<Record<string, Fits>> = {
  'channels.commission': ({ kind }) => kind === 'consignment',
  'channels.fee-percent': AT_A_TILL,
  'channels.fee-each': AT_A_TILL,
  'channels.tax-place': (_, { opened }) => opened.book.studio.taxes !== undefined,
  'bought.tax': (_, { lexicon }) =>
    recordsByDay(lexicon, 'bought').some(({ tax }) => tax !== undefined),
  'sales.buyer': (fields, { lexicon }) => channelKind(fields, lexicon) !== 'fair',
  'sales.card': (fields, { lexicon }) => hasCardReader(fields, lexicon),
  'sales.statement': (fields, { lexicon }) => channelKind(fields, lexicon) === 'consignment',
  'sales.shipping': (fields, { lexicon }) => channelKind(fields, lexicon) === 'online',
  'sales.paid': (fields, { lexicon }) =>
    paysLater(fields, lexicon) || fields['buyer'] !== undefined,
  'advances.number': ({ for: what }) => what === 'certificate',
  'advances.order': ({ for: what }) => what === 'deposit',
  'advances.for-order': ({ for: what }, { opened }) =>
    what === 'deposit' && opened.book.orders.size > 0,
  'kilns.power': ({ fuel }) => fuel === 'electricity',
  'kilns.duty': ({ power }) => power !== undefined,
  'recipes.cone': ({ kind }) => kind !== 'clay',
  'products.wholesale': (_, { opened }) =>
    [...opened.book.channels.values()].some(({ kind }) => kind === 'wholesale'),
  'products.minutes': OF_LABOUR,
  'pieces.minutes': OF_LABOUR,
  'pieces.glaze': ({ product }, { lexicon }) => isGlazedByLot(lexicon, product),
  'mixed.yields': ({ recipe }, { lexicon }) => textUnder(rawOf(lexicon, recipe), 'kind') === 'clay',
  'firings.hours': NOT_READ_YET,
  'firings.energy': NOT_READ_YET,
  'firings.meter-before': NOT_READ_YET,
  'firings.meter-after': NOT_READ_YET,
  'firings.fuel-used': NOT_READ_YET,
  'firings.tended': NOT_READ_YET,
};

/** Whether a field makes sense with what is known of its record. */
export function makesSense(ground: Ground, name: string, fields: RawMap): boolean {
  return ONLY_WHERE[`${ground.kind}.${name}`]?.(fields, ground) ?? true;
}

/** Whether all of a load is out of the kiln, so that what was read off at the end is known. */
function isUnloaded(load: Raw | undefined): boolean {
  const isOut = (line: Raw): boolean =>
    isMap(line) && (line['first'] ?? line['lost']) !== undefined;
  return isList(load) && load.length > 0 && load.every(isOut);
}

/** Whether the lots of a product say by themselves what glaze is on them. */
function isGlazedByLot(lexicon: Lexicon, product: Raw | undefined): boolean {
  if (valueAt(rawOf(lexicon, product), ['glazes']) === undefined) return true;
  return recordsByDay(lexicon, 'pieces').some(
    (lot) => lot['product'] === product && lot['glazes'] !== undefined,
  );
}

function rawOf(lexicon: Lexicon, id: Raw | undefined): Raw | undefined {
  return typeof id === 'string' ? lexicon.find(id)?.raw : undefined;
}

/** Whether the buyer of a sale, or the gallery, mostly pays on a later day. */
export function paysLater(fields: RawMap, lexicon: Lexicon): boolean {
  return ['consignment', 'wholesale'].includes(channelKind(fields, lexicon));
}

/** Whether the channel that a sale names takes a fee for what goes by card; online nobody pays cash. */
function hasCardReader(fields: RawMap, lexicon: Lexicon): boolean {
  const { kind, 'fee-percent': percent, 'fee-each': each } = channelOf(fields, lexicon);
  return kind !== 'online' && (percent ?? each) !== undefined;
}

/** The kind of the channel that a record names; empty where it names none. */
export function channelKind(fields: RawMap, lexicon: Lexicon): string {
  const { kind } = channelOf(fields, lexicon);
  return typeof kind === 'string' ? kind : '';
}

function channelOf({ channel }: RawMap, lexicon: Lexicon): RawMap {
  const raw = typeof channel === 'string' ? lexicon.find(channel)?.raw : undefined;
  return isMap(raw) ? raw : {};
}

/** Whether an option makes sense with what the settings say of sales tax. */
export function asksForTax({ kind, opened }: Ground, name: string, fields: RawMap): boolean {
  const { book } = opened;
  if (kind === 'spent' && name === 'tax-place') return isPayment(book, fields);
  if (kind !== 'sales' || name !== 'tax') return true;
  return book.studio.salesTax !== 'none' && withSaleTax(book, fields) === fields;
}

function isPayment(book: Book, { for: category }: RawMap): boolean {
  return typeof category === 'string' && isPaidOver(book, { for: category });
}

/** The places that the settings and the channels name. */
export function taxPlaces({ studio, channels }: Book): readonly string[] {
  const named = [...channels.values()].flatMap(({ taxPlace }) => taxPlace ?? []);
  return [...new Set([...(studio.taxes ?? []).map(({ place }) => place), ...named])];
}

/** The records of a kind, the oldest first; of one day in the order of the files. */
export function recordsByDay(lexicon: Lexicon, kind: Kind): readonly RawMap[] {
  const records = lexicon.records([kind]).flatMap(({ raw }) => (isMap(raw) ? [raw] : []));
  return records.sort((a, b) => compareTexts(dayText(a), dayText(b)));
}

/** The last record that has the same values as some fields wherever those say anything at the paths. */
export function lastLike(
  records: readonly RawMap[],
  fields: RawMap,
  paths: readonly Path[],
): RawMap | undefined {
  const wanted = paths.flatMap((path) => {
    const value = valueAt(fields, path);
    return typeof value === 'string' ? [{ path, value }] : [];
  });
  return records.findLast((record) =>
    wanted.every(({ path, value }) => valueAt(record, path) === value),
  );
}

/** The texts that stood at a path, the last one first, each once. */
export function earlierTexts(records: readonly RawMap[], path: Path): readonly string[] {
  const texts = records.flatMap((record) => textsAt(record, path));
  return [...new Set(texts.reverse())];
}

function textsAt(record: RawMap, path: Path): string[] {
  const value = valueAt(record, path);
  return typeof value === 'string' ? [value] : [];
}

function dayText(record: RawMap): string {
  const day: Raw | undefined = record['date'];
  return typeof day === 'string' ? day : '';
}
