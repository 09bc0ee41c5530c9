/** A place that is named for sales tax is among the places whose rates the settings have. */
import type { Channel, Sale, Spent } from '../../book.ts';
import { SALES_TAX, isPaidOver } from '../../reckon/paid.ts';
import { listed, spot, type Say } from '../finding.ts';
import { nearest } from '../nearest.ts';
import { each, type EachScene, type Rule } from '../rule.ts';

export const taxPlace: Rule = {
  name: 'tax-place',
  severity: 'error',
  about:
    'A tax place is not among the taxes of the settings, where there are any; or a payment of sales tax names none, or another expense names one.',
  looks: [
    each(['channels', 'sales'], lookAtPlace),
    each('spent', (spent, scene) => {
      if (isPaidOver(scene.book, spent)) lookAtPayment(spent, scene);
      else if (spent.taxPlace !== undefined) sayNoPayment(spent, scene.say);
    }),
  ],
};

function lookAtPlace(record: Channel | Sale | Spent, scene: EachScene): void {
  const { taxes } = scene.book.studio;
  const { taxPlace: place } = record;
  if (taxes === undefined || place === undefined) return;
  const places = new Set(taxes.map((each) => each.place));
  if (places.has(place) || scene.unsound.kinds.has('studio')) return;
  const meant = nearest(place, places);
  scene.say({
    at: spot(record, 'tax-place'),
    message: `"${place}" is not a place under taxes in studio.yaml`,
    hint:
      meant === undefined
        ? `write ${listed([...places], 'or')}; or add the place to taxes, at 0% where you collect nothing`
        : `did you mean "${meant}"?`,
  });
}

function lookAtPayment(spent: Spent, scene: EachScene): void {
  const { taxes } = scene.book.studio;
  if (spent.taxPlace !== undefined || taxes === undefined) {
    lookAtPlace(spent, scene);
    return;
  }
  const places = [...new Set(taxes.map(({ place }) => place))];
  scene.say({
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
