/** Money has no more decimals than its currency. */
import { counted } from '../../in-words.ts';
import { KINDS, type Discount, type NamedBook, type Studio } from '../../book.ts';
import type { FieldSpec } from '../../../schema/generated/fields.js';
import { isDecimal, type Decimal } from '../../number/decimal.ts';
import { minorDigits } from '../../number/money.ts';
import { eachStating, type RuleFinding, spot } from '../finding.ts';
import { each, type EachScene, type Rule } from '../rule.ts';
import { faultFinder } from '../walk.ts';

const MONEY: ReadonlySet<FieldSpec['type']> = new Set(['amount', 'rate', 'discount']);

export const tooManyDecimals: Rule = {
  name: 'too-many-decimals',
  severity: 'error',
  about: 'An amount has more decimals than the currency, or a rate more than eight.',
  looks: [
    each('studio', lookAtSettings),
    each(KINDS, (record, { book, say }, kind) => {
      for (const { path, value, spec } of findFaults(kind, record, book))
        say({
          at: spot(record, ...path),
          ...words(moneyIn(value), spec.type === 'rate' ? RATE : limitOf(book)),
        });
    }),
  ],
};

/** The labour rate, and what it is from a day on. */
function lookAtSettings(studio: Studio, { say }: EachScene): void {
  eachStating(studio, ({ labourRate }, above) => {
    const at = { file: studio.file, path: [...above, 'labour-rate'] };
    if (!isWithin(labourRate, RATE.most)) say({ at, ...words(labourRate, RATE) });
  });
}

interface Limit {
  readonly most: number;
  /** What has that many decimals. */
  readonly of: string;
}

/** A price per unit may be a small part of a cent, but past this it is a slip. */
const RATE: Limit = { most: 8, of: 'a price per unit' };

const findFaults = faultFinder({
  wants: (spec) => MONEY.has(spec.type),
  tester: (spec) =>
    spec.type === 'rate'
      ? (value) => isWithin(moneyIn(value), RATE.most)
      : (value, book) => isWithin(moneyIn(value), mostOf(book)),
});

function mostOf({ studio: { currency } }: NamedBook): number {
  return minorDigits(currency) ?? Infinity;
}

function limitOf(book: NamedBook): Limit {
  return { most: mostOf(book), of: book.studio.currency };
}

function moneyIn(value: unknown): Decimal | undefined {
  if (isDecimal(value)) return value;
  return (value as Discount).amount;
}

function isWithin(money: Decimal | undefined, most: number): boolean {
  return money === undefined || money.decimalPlaces() <= most;
}

function words(
  money: Decimal | undefined,
  { most, of }: Limit,
): Pick<RuleFinding, 'message' | 'hint'> {
  const decimals = counted(money?.decimalPlaces() ?? 0, 'decimal');
  const limit = most === 0 ? 'none' : `at most ${most}`;
  return {
    message: `${money?.toFixed() ?? ''} has ${decimals}, but ${of} has ${limit}`,
    hint: `round it to ${most === 0 ? 'a whole number' : counted(most, 'decimal')}`,
  };
}
