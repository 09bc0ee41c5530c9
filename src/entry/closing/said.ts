/** What is said at the end of a fair day: lines of ware and amounts, read from options. */
import { FIELDS, PATTERNS, type RecordSpec } from '../../../schema/generated/fields.js';
import type { Book } from '../../book.ts';
import { decimal } from '../../number/decimal.ts';
import type { Money } from '../../number/money.ts';
import { textOrEmpty, type RawMap } from '../../read/raw.ts';
import { booked, digitsOf } from '../../reckon/booked.ts';
import type { Refused } from '../../write/parts.ts';
import type { TypedFault } from '../expand.ts';
import type { Form } from '../form.ts';
import { formOf } from '../forms.ts';
import type { Lexicon } from '../lexicon.ts';
import { readSentence } from '../sentence.ts';
import type { FairWare } from './count.ts';

/** The options that take lines of ware. */
export const WARE_OPTIONS = ['took', 'back', 'sold', 'missing'] as const;

export type WareOption = (typeof WARE_OPTIONS)[number];

/** Ware that was sold, at a price of its own where one is said. */
export interface SoldWare extends FairWare {
  readonly price?: string;
}

/** Lines of one option; `all` is all that is left, `none` says so itself. */
export interface SaidLines {
  readonly lines: readonly SoldWare[];
  readonly all: boolean;
  readonly faults: readonly TypedFault[];
}

const TAKE = formOf('fairs', 'take');

/** How a line of each option reads. */
export function closingForm(option: WareOption): Form {
  if (!TAKE) throw new Error('fairs have no form for what is taken along');
  if (option !== 'sold') return { ...TAKE, option };
  return {
    ...TAKE,
    kind: 'sales',
    field: 'lines',
    option,
    shape: `${TAKE.shape} [at PRICE]`,
    grammar: { ...TAKE.grammar, loose: 'price', tails: { at: 'price' } },
  };
}

/** The fields that a line fills. */
export function closingSpec(option: WareOption): RecordSpec {
  const list = option === 'sold' ? FIELDS.sales.fields['lines'] : FIELDS.fairs.fields['take'];
  if (list?.type !== 'list' || list.of.type !== 'record') throw new Error(`no lines for ${option}`);
  return list.of;
}

const ALL_OR_NONE: Readonly<Record<WareOption, readonly string[]>> = {
  took: [],
  back: ['none'],
  sold: ['all', 'none'],
  missing: ['all', 'none'],
};

/** Reads the lines of one option. */
export function readWare(
  option: WareOption,
  sentences: readonly string[],
  lexicon: Lexicon,
): SaidLines {
  const form = closingForm(option);
  const read = sentences.map((sentence, index) => {
    if (ALL_OR_NONE[option].includes(sentence.trim())) return { lines: [], faults: [] };
    const { fields, faults } = readSentence(sentence, {
      form,
      spec: closingSpec(option),
      lexicon,
    });
    const found = faults.length > 0 ? faults : lacking(fields, sentence, form);
    return {
      lines: found.length > 0 ? [] : [wareOf(fields)],
      faults: found.map((fault) => ({ ...fault, path: [option, index], sentence })),
    };
  });
  return {
    lines: read.flatMap(({ lines }) => lines).filter(({ count }) => count > 0),
    all: sentences.some(
      (sentence) => sentence.trim() === 'all' && ALL_OR_NONE[option].includes('all'),
    ),
    faults: read.flatMap(({ faults }) => faults),
  };
}

type Lacking = Omit<TypedFault, 'path' | 'sentence'>;

/** The form of an amount that is not below zero. */
export const AMOUNT = new RegExp(PATTERNS['amount'] ?? '', 'u');

function lacking({ product, count, price }: RawMap, sentence: string, form: Form): Lacking[] {
  const at = { rule: 'schema' as const, start: 0, width: sentence.length };
  const hint = `write ${form.shape}, as in "${form.examples[0] ?? ''}"`;
  if (product === undefined) return [{ ...at, message: 'it does not name a product', hint }];
  if (!/^\d{1,6}$/.test(textOrEmpty(count)))
    return [{ ...at, message: `"${textOrEmpty(count)}" is not a count of pieces`, hint }];
  if (price !== undefined && !AMOUNT.test(textOrEmpty(price)))
    return [{ ...at, message: `"${textOrEmpty(price)}" is not an amount`, hint }];
  return [];
}

function wareOf({ product, glaze, grade, count, price }: RawMap): SoldWare {
  return {
    product: textOrEmpty(product),
    ...(glaze === undefined ? {} : { glaze: textOrEmpty(glaze) }),
    ...(grade === 'second' ? { grade } : {}),
    count: Number(textOrEmpty(count)),
    ...(price === undefined ? {} : { price: textOrEmpty(price) }),
  };
}

/** An amount that is not below zero, in the studio's currency; undefined where none is said. */
export function readAmount(
  book: Book,
  option: string,
  text: string | undefined,
): Money | undefined | Refused {
  if (text === undefined) return undefined;
  const digits = digitsOf(book);
  const example = digits === 0 ? '31250' : '312.50';
  if (!AMOUNT.test(text))
    return { refused: `${option}: "${text}" is not an amount; write digits, such as ${example}` };
  const amount = decimal(text);
  if (amount.decimalPlaces() > digits)
    return {
      refused: `${option}: ${text} has more decimals than ${book.studio.currency}; write an amount such as ${example}`,
    };
  return booked(book, amount);
}
