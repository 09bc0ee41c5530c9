/** Without a known currency nobody can tell how many decimals an amount has. */
import { CURRENCIES, minorDigits } from '../../number/money.ts';
import { nearest } from '../nearest.ts';
import type { Rule } from '../rule.ts';

export const unknownCurrency: Rule = {
  name: 'unknown-currency',
  severity: 'error',
  about: "The studio's currency is no code of ISO 4217.",
  find: ({ studio }) => {
    const { currency, file } = studio;
    if (minorDigits(currency) !== undefined) return [];
    const meant = nearest(currency, CURRENCIES);
    return [
      {
        at: { file, path: ['currency'] },
        message: `${currency} is not a currency`,
        hint:
          meant === undefined
            ? 'write the code of three capital letters, such as USD, EUR or GBP'
            : `did you mean ${meant}?`,
      },
    ];
  },
};
