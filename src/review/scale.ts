/** Figures that are out of scale: ten times what they were or usually are, or a tenth. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { FieldSpec, RecordSpec } from '../../schema/generated/fields.js';
import type { Book, Entry, Kind } from '../book.ts';
import { ZERO, decimal, divide, isDecimal, roundTo, type Decimal } from '../number/decimal.ts';
import type { RecordChange } from './changes.ts';
import { comparable, typedFieldsOf, isFields, isQuantity, type TypedFields } from './value.ts';

/** A figure beside the one that it is measured by. */
export interface OutOfScale {
  readonly path: readonly (string | number)[];
  /** What the figure is of: `mug`, `kaolin`. */
  readonly of: string;
  readonly spec: FieldSpec;
  readonly value: unknown;
  /** What it was before, or else what such figures come to in the middle. */
  readonly than: { readonly what: 'before' | 'usual'; readonly value: unknown };
  /** Ten or more for a figure that is too large, a tenth or less for one that is too small. */
  readonly factor: Decimal;
}

const TEN = decimal(10);
const TENTH = decimal('0.1');
/** So many figures make a usual one. */
const LEAST_SAMPLES = 3;

/** A figure of a record, and what others it can be held against. */
interface ScaledFigure {
  readonly path: readonly (string | number)[];
  readonly like: string;
  readonly of: string;
  readonly spec: FieldSpec;
  readonly value: unknown;
  readonly size: Decimal;
}

/**
 * Figures that are ten times their old value or more, or a tenth or less; and of what is new, such as
 * are so far from the middle one of the old book's figures of that field for the same product or
 * material, and beyond all of them.
 */
export function outOfScale(
  old: Book,
  changes: readonly RecordChange[],
): ReadonlyMap<RecordChange, OutOfScale[]> {
  const usual = usualIn(old);
  const found = changes.map((change) => [change, outliersOf(change, usual)] as const);
  return new Map(found.filter(([, outliers]) => outliers.length > 0));
}

type UsualFigures = (kind: Kind) => ReadonlyMap<string, readonly ScaledFigure[]>;

function outliersOf(change: RecordChange, usual: UsualFigures): OutOfScale[] {
  const { kind, before, after, fields } = change;
  if (kind === 'studio' || !after) return [];
  const changed = fields.flatMap(({ path, spec, before: was, after: value, item = '' }) =>
    was === undefined ? [] : farOff({ path, spec, value, of: item, was }),
  );
  const known = new Set(
    (before ? figuresInRecord(kind, before) : []).map(
      ({ like, size }) => `${like} ${size.toString()}`,
    ),
  );
  const replaced = new Set(
    fields.filter(({ before: was }) => was !== undefined).map(({ path }) => path.join(' ')),
  );
  const fresh = figuresInRecord(kind, after).filter(
    ({ like, size, path }) =>
      !known.has(`${like} ${size.toString()}`) && !replaced.has(path.join(' ')),
  );
  const isNew = !before || fields.length > 0;
  return [...changed, ...(isNew ? fresh.flatMap((figure) => unusual(figure, usual(kind))) : [])];
}

function farOff(figure: {
  readonly path: readonly (string | number)[];
  readonly spec: FieldSpec;
  readonly value: unknown;
  readonly of: string;
  readonly was: unknown;
}): OutOfScale[] {
  const { path, spec, value, of, was } = figure;
  const [size, other] = [sizeOf(value), sizeOf(was)];
  if (!size || size.unit !== other?.unit) return [];
  const factor = ratio(size.value, other.value);
  return factor ? [{ path, of, spec, value, than: { what: 'before', value: was }, factor }] : [];
}

function unusual(
  figure: ScaledFigure,
  usual: ReadonlyMap<string, readonly ScaledFigure[]>,
): OutOfScale[] {
  const others = usual.get(figure.like) ?? [];
  const middle = others[Math.floor((others.length - 1) / 2)];
  if (!middle || others.length < LEAST_SAMPLES) return [];
  const factor = ratio(figure.size, middle.size);
  if (!factor || !isBeyond(figure.size, factor, others)) return [];
  const { path, of, spec, value } = figure;
  return [{ path, of, spec, value, than: { what: 'usual', value: middle.value }, factor }];
}

function isBeyond(size: Decimal, factor: Decimal, others: readonly ScaledFigure[]): boolean {
  return others.every((other) => (factor.gte(TEN) ? other.size.lt(size) : other.size.gt(size)));
}

/** value ÷ other where that is ten or more, or a tenth or less. */
function ratio(value: Decimal, other: Decimal): Decimal | undefined {
  if (value.lte(ZERO) || other.lte(ZERO)) return undefined;
  const factor = divide(value, other);
  return factor.gte(TEN) || factor.lte(TENTH) ? factor : undefined;
}

/** A factor in words: `10 times`, `a 12th of`. */
export function factorText(factor: Decimal): string {
  if (factor.gte(TEN)) return `${roundTo(factor, 1).toString()} times`;
  return `1/${roundTo(divide(decimal(1), factor), 1).toString()} of`;
}

/** The old book's figures by kind, each kind gathered when it is first asked for. */
function usualIn(old: Book): UsualFigures {
  const known = new Map<Kind, ReadonlyMap<string, readonly ScaledFigure[]>>();
  return (kind) => {
    const made = known.get(kind) ?? gatherFigures(kind, old[kind]);
    known.set(kind, made);
    return made;
  };
}

/** A book of many years says no more of what is usual than its last records do. */
const MOST_RECORDS = 3000;

function gatherFigures(
  kind: Kind,
  records: ReadonlyMap<string, Entry>,
): ReadonlyMap<string, readonly ScaledFigure[]> {
  const figures = new Map<string, ScaledFigure[]>();
  const recent = [...records.values()].slice(-MOST_RECORDS);
  for (const figure of recent.flatMap((entry) => figuresInRecord(kind, entry))) {
    const known = figures.get(figure.like);
    if (known) known.push(figure);
    else figures.set(figure.like, [figure]);
  }
  for (const same of figures.values()) same.sort((one, other) => one.size.cmp(other.size));
  return figures;
}

function figuresInRecord(kind: Kind, entry: Entry): ScaledFigure[] {
  const spec = FIELDS[kind];
  return figuresIn(spec, { ...entry }, { path: [], keys: kind, of: '', to: '' });
}

interface FigurePlace {
  readonly path: readonly (string | number)[];
  /** Kind and keys on the way, without the indexes. */
  readonly keys: string;
  readonly of: string;
  /** Who is paid: what is usual for one is not for another. */
  readonly to: string;
}

function figuresIn(spec: RecordSpec, fields: TypedFields, where: FigurePlace): ScaledFigure[] {
  const of = subjectOf(spec, fields) ?? where.of;
  const to = typeof fields['to'] === 'string' ? fields['to'] : where.to;
  return typedFieldsOf(spec).flatMap(([key, name, field]) => {
    const at = { path: [...where.path, key], keys: `${where.keys} ${key}`, of, to };
    return figuresAt(field, fields[name], at);
  });
}

function figuresAt(spec: FieldSpec, value: unknown, where: FigurePlace): ScaledFigure[] {
  if (value === undefined) return [];
  if (spec.type === 'list' && Array.isArray(value))
    return value.flatMap((item: unknown, index) =>
      figuresAt(spec.of, item, { ...where, path: [...where.path, index] }),
    );
  if (spec.type === 'record' && isFields(value)) return figuresIn(spec, value, where);
  const size = sizeOf(value);
  if (!size || spec.type === 'map' || spec.type === 'percent') return [];
  const { path, keys, of, to } = where;
  const like = [keys, of, to, size.unit].join('\n');
  return [{ path, of, like, spec, value, size: size.value }];
}

/** What a record's figures are of: the id of what it names first, with the grade or purpose of it. */
function subjectOf(spec: RecordSpec, fields: TypedFields): string | undefined {
  const words = typedFieldsOf(spec)
    .filter(([key, , field]) => (field.type === 'reference' && key !== 'lot') || SUBJECTS.has(key))
    .map(([, name]) => fields[name])
    .filter((word) => typeof word === 'string');
  return words.length === 0 ? undefined : words.join(', ');
}

const SUBJECTS: ReadonlySet<string> = new Set(['for', 'kind', 'grade', 'part']);

/** The size of a value that has one, and the unit that it can be compared in. */
function sizeOf(value: unknown): { value: Decimal; unit: string } | undefined {
  if (isDecimal(value)) return { value, unit: '' };
  if (typeof value === 'number') return { value: decimal(value), unit: '' };
  if (isFields(value) && isDecimal(value['amount'])) return { value: value['amount'], unit: '' };
  if (!isQuantity(value)) return undefined;
  const { value: size, of } = comparable(value);
  return { value: size, unit: of };
}
