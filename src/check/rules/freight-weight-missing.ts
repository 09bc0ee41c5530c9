/** Freight can be shared by weight only where every line has a weight. */
import type { BoughtLine, NamedBook } from '../../book.ts';
import { ZERO } from '../../number/decimal.ts';
import { dimensionOf } from '../../number/unit.ts';
import { gramsOf } from '../../reckon/stock-flow.ts';
import { spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const freightWeightMissing: Rule = {
  name: 'freight-weight-missing',
  severity: 'error',
  about:
    'Freight is to be shared by weight, but a line has no weight; until it has, it bears no freight.',
  looks: [
    each('bought', (bought, { book, say }) => {
      const { lines, freight = ZERO, shareFreightBy } = bought;
      // One line alone bears all of the freight, whatever it weighs.
      if (shareFreightBy !== 'weight' || freight.isZero() || lines.length === 1) return;
      lines.forEach((line, index) => {
        if (gramsOf(line) !== undefined || isBadUnit(book, line)) return;
        say({
          at: spot(bought, 'lines', index),
          message: `line ${index + 1} (${line.quantity.text} ${line.material}) has no weight, but freight is shared by weight`,
          hint: 'write weight on this line, what all of it weighs, such as weight: 3 kg; or leave out share-freight-by, and freight is shared by cost',
        });
      });
    }),
  ],
};

/** A count or volume of what is kept by weight, of which `bad-unit` speaks. */
function isBadUnit(book: NamedBook, { material }: BoughtLine): boolean {
  const unit = book.materials.get(material)?.unit;
  return unit !== undefined && dimensionOf(unit) === 'weight';
}
