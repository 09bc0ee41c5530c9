/** A load can't take more room than the kiln has. */
import type { Firing, LoadLine, NamedBook } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { ONE, ZERO, decimal, type Decimal } from '../../number/decimal.ts';
import { keySpot, spot } from '../finding.ts';
import { each, type Rule } from '../rule.ts';

export const kilnOverfull: Rule = {
  name: 'kiln-overfull',
  severity: 'warning',
  about: 'The load takes more space than the kiln has.',
  looks: [
    each('firings', (firing, { book, say }) => {
      const kiln = book.kilns.get(firing.kiln);
      if (kiln?.space === undefined) return;
      const taken = spaceTaken(book, firing);
      if (taken.lte(kiln.space)) return;
      say({
        at: keySpot(firing, 'load'),
        message: `the load takes ${taken.toFixed()} of space, but ${kiln.id} has ${kiln.space.toFixed()}`,
        hint: 'correct a count, or give a line the space that one of its pieces takes, as when ware is stacked',
        related: [{ at: spot(kiln, 'space'), message: `the space of ${kiln.id}` }],
      });
    }),
  ],
};

function spaceTaken(book: NamedBook, firing: Firing): Decimal {
  return firing.load.reduce(
    (total, line) => total.plus(spaceOfOne(book, line).times(decimal(line.in))),
    ZERO,
  );
}

/** Space of one piece: the line's, else its product's, else 1. */
function spaceOfOne(book: NamedBook, line: LoadLine): Decimal {
  const lot = line.lot === undefined ? undefined : book.pieces.get(line.lot);
  const product = lot === undefined ? undefined : inForce(book.products.get(lot.product), lot.date);
  return line.space ?? product?.space ?? ONE;
}
