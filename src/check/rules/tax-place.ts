/** A place that is named for sales tax is among the places whose rates the settings have. */
import type { Book, Channel, Sale, Spent } from '../../book.ts';
import { SALES_TAX, isPaidOver } from '../../reckon/paid-over.ts';
import { findEach, listed, spot, type Say } from '../finding.ts';
import { nearest } from '../nearest.ts';
import type { Rule, Unsound } from '../rule.ts';

export const taxPlace: Rule = {
  name: 'tax-place',
  severity: 'error',
  about:
    'A tax place is not among the taxes of the settings, where there are any; or a payment of sales tax names none, or another expense names one.',
  find: (book, _day, unsound) => {
    const look = (record: Channel | Sale, say: Say): void => {
      lookAtPlace(book, record, { say, unsound });
    };
    return [
      ...findEach(book.channels, look),
      ...findEach(book.sales, look),
      ...findEach(book.spent, (spent, say) => {
        if (isPaidOver(book, spent)) lookAtPayment(book, spent, { say, unsound });
        else if (spent.taxPlace !== undefined) sayNoPayment(spent, say);
      }),
    ];
  },
};

interface Look {
  readonly say: Say;
  readonly unsound: Unsound;
}

function lookAtPlace(book: Book, record: Channel | Sale | Spent, { say, unsound }: Look): void {
  const { taxes } = book.studio;
  const { taxPlace: place } = record;
  if (taxes === undefined || place === undefined || unsound.kinds.has('studio')) return;
  const places = new Set(taxes.map((each) => each.place));
  if (places.has(place)) return;
  const meant = nearest(place, places);
  say({
    at: spot(record, 'tax-place'),
    message: `"${place}" is not a place under taxes in studio.yaml`,
    hint:
      meant === undefined
        ? `write ${listed([...places], 'or')}; or add the place to taxes, at 0% where you collect nothing`
        : `did you mean "${meant}"?`,
  });
}

function lookAtPayment(book: Book, spent: Spent, look: Look): void {
  const { taxes } = book.studio;
  if (spent.taxPlace !== undefined || taxes === undefined) {
    lookAtPlace(book, spent, look);
    return;
  }
  const places = [...new Set(taxes.map(({ place }) => place))];
  look.say({
    at: spot(spent, 'for'),
    message: 'this payment of sales tax does not say to which place',
    hint: `write tax-place: ${listed(places, 'or')}`,
  });
}

function sayNoPayment(spent: Spent, say: Say): void {
  say({
    at: spot(spent, 'tax-place'),
    message: `an expense for ${spent.for} has no tax place`,
    hint: `write for: ${SALES_TAX} where this pays collected sales tax over; otherwise take tax-place out`,
  });
}
