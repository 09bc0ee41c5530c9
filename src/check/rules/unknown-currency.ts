/** Without a known currency nobody can tell how many decimals an amount has. */
import { minorDigits } from '../../number/money.ts';
import { each, type Rule } from '../rule.ts';

export const unknownCurrency: Rule = {
  name: 'unknown-currency',
  severity: 'error',
  about: "The studio's currency is no code of ISO 4217.",
  looks: [
    each('studio', ({ currency, file }, { say }) => {
      // A currency that is missing is a fault of the settings already.
      if (currency === '' || minorDigits(currency) !== undefined) return;
      say({
        at: { file, path: ['currency'] },
        message: `${currency} is no currency's code`,
        hint: 'write the three letters of ISO 4217, such as USD, EUR or GBP',
      });
    }),
  ],
};
