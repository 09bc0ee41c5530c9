/** Without a known currency nobody can tell how many decimals an amount has. */
import { minorDigits } from '../../number/money.ts';
import type { Rule } from '../rule.ts';

export const unknownCurrency: Rule = {
  name: 'unknown-currency',
  severity: 'error',
  about: "The studio's currency is no code of ISO 4217.",
  find: ({ studio: { currency, file } }) => {
    // A currency that is missing is a fault of the settings already.
    if (currency === '' || minorDigits(currency) !== undefined) return [];
    return [
      {
        at: { file, path: ['currency'] },
        message: `${currency} is no currency's code`,
        hint: 'write the three letters of ISO 4217, such as USD, EUR or GBP',
      },
    ];
  },
};
