/** Money has no more decimals than its currency. */
import type { Discount } from '../../book.ts';
import type { FieldSpec } from '../../../schema/generated/fields.js';
import { isDecimal, type Decimal } from '../../number/decimal.ts';
import { minorDigits } from '../../number/money.ts';
import { counted, spot } from '../finding.ts';
import type { Rule, RuleFinding } from '../rule.ts';
import { walker } from '../walk.ts';

/** A price per unit may be a small part of a cent, but somewhere it is a slip. */
const RATE_DECIMALS = 8;

const MONEY: ReadonlySet<FieldSpec['type']> = new Set(['amount', 'rate', 'discount']);

const walk = walker((spec) => MONEY.has(spec.type));

export const tooManyDecimals: Rule = {
  name: 'too-many-decimals',
  severity: 'error',
  about: 'An amount has more decimals than the currency, or a rate more than eight.',
  find: (book) => {
    const found: RuleFinding[] = [];
    const { currency, labourRate, file } = book.studio;
    const digits = minorDigits(currency);
    const rates = { most: RATE_DECIMALS, of: 'a price per unit' };
    const amounts = { most: digits ?? Infinity, of: currency };
    if (isOver(labourRate, rates))
      found.push({ at: { file, path: ['labour-rate'] }, ...words(labourRate, rates) });
    walk(book, ({ record, value, spec, path }) => {
      const money = moneyIn(value);
      const limit = spec.type === 'rate' ? rates : amounts;
      if (isOver(money, limit)) found.push({ at: spot(record, ...path), ...words(money, limit) });
    });
    return found;
  },
};

interface Limit {
  readonly most: number;
  /** What has that many decimals. */
  readonly of: string;
}

function isOver(money: Decimal | undefined, { most }: Limit): money is Decimal {
  return money !== undefined && money.decimalPlaces() > most;
}

function moneyIn(value: unknown): Decimal | undefined {
  if (isDecimal(value)) return value;
  return (value as Discount).amount;
}

function words(money: Decimal, { most, of }: Limit): Pick<RuleFinding, 'message' | 'hint'> {
  const decimals = counted(money.decimalPlaces(), 'decimal');
  return {
    message: `${money.toFixed()} has ${decimals}, but ${of} has ${most === 0 ? 'none' : `at most ${most}`}`,
    hint: `round it to ${most === 0 ? 'a whole number' : counted(most, 'decimal')}`,
  };
}
