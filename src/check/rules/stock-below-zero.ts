/** Nothing can be drawn that is not in stock, unless the book is behind. */
import { counted } from '../../in-words.ts';
import { grouped } from '../../grouping.ts';
import type { Shortfall } from '../../reckon/stock.ts';
import { type RuleFinding } from '../finding.ts';
import { short, type Rule } from '../rule.ts';

export const stockBelowZero: Rule = {
  name: 'stock-below-zero',
  severity: 'warning',
  about: 'More of a material or a mixed glaze was drawn than the book has in stock.',
  looks: [
    short(({ of }) =>
      [...grouped(of('material', 'bucket'), ({ what }) => what).values()].flatMap(asOne),
    ),
  ],
};

// Once the book is behind every draw is short, and the first one is where to look.
function asOne([first, ...later]: readonly Shortfall[]): readonly RuleFinding[] {
  if (first === undefined) return [];
  const { at, what, because, day, kind } = first;
  const others = later.length === 0 ? '' : `, and short in ${counted(later.length, 'later draw')}`;
  const source = kind === 'bucket' ? 'mix' : 'purchase';
  return [
    {
      at,
      message: `${what} ran short on ${day}: ${because}${others}`,
      hint: `add the ${source} that is missing, correct a quantity, or count what is there`,
    },
  ];
}
