/** Takes what a tax sheet says of the law of its year: rates, limits, periods and days. */
import { ONE, divide } from '../../number/decimal.ts';
import {
  CARRYING_LINES,
  SELF_EMPLOYMENT_LINES,
  type AllowanceLaw,
  type DuePeriod,
  type EstimateLaw,
  type EstimatePeriod,
  type GoodsLaw,
  type IncomeLimit,
  type LastingLaw,
  type MileageRate,
  type PaidAhead,
  type PayeeLaw,
  type SelfEmployment,
} from '../../reckon/tax/tax-law.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import {
  fault,
  fieldOf,
  has,
  ifSaid,
  isRecord,
  listIn,
  monthDayIn,
  numberIn,
  textIn,
  textsIn,
  wordIn,
  type SheetSpot,
} from './sheet-page.ts';

/** All of it that the sheet has. */
export function lawIn(root: SheetSpot): Partial<TaxSheet> {
  return {
    ...ifSaid(root, 'goods', (at) => ({ goods: goodsIn(at) })),
    ...ifSaid(root, 'mileage', (at) => ({ mileage: mileageIn(at) })),
    ...ifSaid(root, 'payees', (at) => ({ payees: payeesIn(at) })),
    ...ifSaid(root, 'lasting', (at) => ({ lasting: lastingIn(at) })),
    ...ifSaid(root, 'self-employment', (at) => ({ selfEmployment: selfIn(at) })),
    ...ifSaid(root, 'estimates', (at) => ({ estimates: estimatesIn(at) })),
    ...ifSaid(root, 'allowance', (at) => ({ allowance: allowanceIn(at) })),
    ...ifSaid(root, 'limit', (at) => ({ limit: limitIn(at) })),
  };
}

function goodsIn(at: SheetSpot): GoodsLaw {
  isRecord(at, ['cash', 'own-use', 'source']);
  const said = <W extends string>(key: string, words: readonly W[]): W | undefined =>
    has(at, key) ? wordIn(fieldOf(at, key), words) : undefined;
  const cash = said('cash', ['paid', 'used-and-paid']);
  const ownUse = said('own-use', ['price']);
  return { ...(cash && { cash }), ...(ownUse && { ownUse }) };
}

function payeesIn(at: SheetSpot): PayeeLaw {
  isRecord(at, ['categories', 'least', 'unverified', 'source']);
  return {
    categories: textsIn(fieldOf(at, 'categories')),
    least: numberIn(fieldOf(at, 'least')),
    ...verifiedIn(at),
  };
}

function lastingIn(at: SheetSpot): LastingLaw {
  isRecord(at, ['limit', 'name', 'unverified', 'source']);
  return {
    limit: numberIn(fieldOf(at, 'limit')),
    name: textIn(fieldOf(at, 'name')),
    ...verifiedIn(at),
  };
}

/** Whether that part of the sheet says of itself that it is from memory. */
export function verifiedIn(at: SheetSpot): { isUnverified?: true } {
  const said = has(at, 'unverified') && wordIn(fieldOf(at, 'unverified'), ['yes', 'no']);
  return said === 'yes' ? { isUnverified: true } : {};
}

function allowanceIn(at: SheetSpot): AllowanceLaw {
  isRecord(at, ['number', 'amount', 'income', 'expenses', 'source']);
  return {
    number: textIn(fieldOf(at, 'number')),
    amount: numberIn(fieldOf(at, 'amount')),
    income: textsIn(fieldOf(at, 'income')),
    expenses: textIn(fieldOf(at, 'expenses')),
  };
}

function limitIn(at: SheetSpot): IncomeLimit {
  isRecord(at, ['amount', 'lines', 'above', 'unverified', 'source']);
  return {
    amount: numberIn(fieldOf(at, 'amount')),
    lines: textsIn(fieldOf(at, 'lines')),
    above: textIn(fieldOf(at, 'above')),
    ...verifiedIn(at),
  };
}

function mileageIn(at: SheetSpot): NonNullable<TaxSheet['mileage']> {
  isRecord(at, ['unit', 'rates', 'source']);
  const unit = textIn(fieldOf(at, 'unit'));
  if (unit !== 'mi' && unit !== 'km')
    fault(fieldOf(at, 'unit'), `unit is "${unit}"`, 'it is mi or km');
  const source = has(at, 'source') ? textIn(fieldOf(at, 'source')) : '';
  const rates = listIn(fieldOf(at, 'rates')).map(rateIn);
  if (rates.length === 0) fault(at, 'rates is missing', 'write rates: [{ rate: 0.45 }]');
  return { unit: unit === 'km' ? 'km' : 'mi', rates, source };
}

function rateIn(at: SheetSpot): MileageRate {
  isRecord(at, ['up-to', 'rate']);
  const rate = numberIn(fieldOf(at, 'rate'));
  return has(at, 'up-to') ? { upTo: numberIn(fieldOf(at, 'up-to')), rate } : { rate };
}

function selfIn(at: SheetSpot): SelfEmployment {
  isRecord(at, ['share', 'social-security', 'medicare', 'wage-base', 'least', 'lines', 'source']);
  const lines = fieldOf(at, 'lines');
  const isForm = has(at, 'lines') && isRecord(lines, SELF_EMPLOYMENT_LINES);
  return {
    share: numberIn(fieldOf(at, 'share')),
    socialSecurity: numberIn(fieldOf(at, 'social-security')),
    medicare: numberIn(fieldOf(at, 'medicare')),
    wageBase: numberIn(fieldOf(at, 'wage-base')),
    least: numberIn(fieldOf(at, 'least')),
    ...(isForm ? { lines: selfLinesIn(lines) } : {}),
  };
}

function selfLinesIn(lines: SheetSpot): NonNullable<SelfEmployment['lines']> {
  const wanted = SELF_EMPLOYMENT_LINES.filter((key) => !CARRYING_LINES.has(key) || has(lines, key));
  return Object.fromEntries(wanted.map((key) => [key, textIn(fieldOf(lines, key))]));
}

function estimatesIn(at: SheetSpot): EstimateLaw {
  isRecord(at, ['periods', 'paid-ahead', 'source']);
  return {
    periods: listIn(fieldOf(at, 'periods')).map(estimatePeriodIn),
    ...ifSaid(at, 'paid-ahead', (ahead) => ({ paidAhead: paidAheadIn(ahead) })),
  };
}

/** Where no share is said, as much of the year's tax is asked as the period is of the year. */
function estimatePeriodIn(at: SheetSpot): EstimatePeriod {
  isRecord(at, ['to', 'due', 'factor', 'share']);
  const factor = numberIn(fieldOf(at, 'factor'));
  if (!factor.isZero() && !has(at, 'share'))
    return { ...dueIn(at), factor, share: divide(ONE, factor) };
  return { ...dueIn(at), factor, share: numberIn(fieldOf(at, 'share')) };
}

function paidAheadIn(at: SheetSpot): PaidAhead {
  isRecord(at, ['of-this-year', 'of-last-year', 'above']);
  const above = fieldOf(at, 'above');
  isRecord(above, ['income', 'of-last-year']);
  return {
    ofThisYear: numberIn(fieldOf(at, 'of-this-year')),
    ofLastYear: numberIn(fieldOf(at, 'of-last-year')),
    above: {
      income: numberIn(fieldOf(above, 'income')),
      ofLastYear: numberIn(fieldOf(above, 'of-last-year')),
    },
  };
}

/** The periods of updates, with the days when they are due. */
export function updatesIn(at: SheetSpot): DuePeriod[] {
  isRecord(at, ['periods', 'lines', 'unverified', 'source']);
  return listIn(fieldOf(at, 'periods')).map((period) => {
    isRecord(period, ['to', 'due']);
    return dueIn(period);
  });
}

function dueIn(at: SheetSpot): DuePeriod {
  return { to: monthDayIn(fieldOf(at, 'to')), due: monthDayIn(fieldOf(at, 'due')) };
}
