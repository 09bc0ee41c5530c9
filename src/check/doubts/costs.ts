/** Costs of material and prices of energy that are far from the book's own. */
import type { Bought, Counted, Tariff } from '../../book.ts';
import { ONE, type Decimal } from '../../number/decimal.ts';
import { dimensionOf, inBase, type Quantity } from '../../number/unit.ts';
import { usual, type Rule } from '../rule.ts';
import { isAbove, moneyAsTold } from './amounts.ts';
import type { Figure, GatherScene } from './figure.ts';
import { BY_TIMES } from './measures.ts';

const COST = { measure: BY_TIMES, what: 'a cost of', joint: 'of' };

const costSlip: Rule = {
  name: 'cost-slip',
  severity: 'warning',
  isDoubt: true,
  about: 'So much of a material costs far more or less than the same material does otherwise.',
  looks: [usual('counted', COST, gatherOpening), usual('bought', COST, gatherBought)],
};

/** What was paid or counted for how much of a material. */
interface Costing {
  readonly material: string;
  readonly quantity: Quantity;
  readonly cost?: Decimal;
}

function gatherBought({ date, lines }: Bought, scene: GatherScene): void {
  lines.forEach((line, index) => {
    noteCost(scene, line, { day: date, path: ['lines', index, 'cost'] });
  });
}

function gatherOpening({ date, materials = [] }: Counted, scene: GatherScene): void {
  materials.forEach((line, index) => {
    noteCost(scene, line, { day: date, path: ['materials', index, 'cost'] });
  });
}

function noteCost(
  { book, note }: GatherScene,
  { material, quantity, cost }: Costing,
  where: Pick<Figure, 'day' | 'path'>,
): void {
  const size = inBase(quantity.value, quantity.unit);
  if (!isAbove(cost) || !isAbove(size)) return;
  const dimension = dimensionOf(quantity.unit);
  const isOwn = dimension === dimensionOf(book.materials.get(material)?.unit ?? quantity.unit);
  note({
    like: isOwn ? material : `${material} by ${dimension}`,
    size: cost.toNumber() / size.toNumber(),
    ...where,
    text: () => `${moneyAsTold(book, cost)} for ${quantity.text}`,
  });
}

const tariffSlip: Rule = {
  name: 'tariff-slip',
  severity: 'warning',
  isDoubt: true,
  about: 'A tariff has a price that is far from the other prices of that fuel.',
  looks: [usual('tariffs', { measure: BY_TIMES, what: 'a price of' }, gatherTariff)],
};

function gatherTariff(tariff: Tariff, { book, note }: GatherScene): void {
  const { from, fuel, per, bands = [] } = tariff;
  const unit = inBase(ONE, per).toNumber();
  const noteRate = (price: Decimal, ...path: (string | number)[]): void => {
    if (!isAbove(price)) return;
    const text = (): string => `${moneyAsTold(book, price)} per ${per}`;
    note({ like: fuel, size: price.toNumber() / unit, day: from, path, text });
  };
  noteRate(tariff.price, 'price');
  bands.forEach((band, index) => {
    noteRate(band.price, 'bands', index, 'price');
  });
}

/** The rules on what is paid for material and energy. */
export const COST_DOUBTS: readonly Rule[] = [costSlip, tariffSlip];
