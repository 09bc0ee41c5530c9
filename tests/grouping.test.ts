import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addTo, grouped } from '../src/grouping.ts';
import { holds } from './helpers/law.ts';

describe('groups', () => {
  it('stand in the order in which their first ones came, as do the things in each', () => {
    const groups = grouped(['pear', 'apple', 'plum', 'quince', 'peach'], (word) => word[0]);
    expect([...groups]).toEqual([
      ['p', ['pear', 'plum', 'peach']],
      ['a', ['apple']],
      ['q', ['quince']],
    ]);
    addTo(groups, 'a', 'apricot');
    addTo(groups, 's', 'sloe');
    expect([groups.get('a'), groups.get('s')]).toEqual([['apple', 'apricot'], ['sloe']]);
  });

  it('have every thing once, in the one of its key', () => {
    holds(
      fc.property(fc.array(fc.integer({ min: 0, max: 40 })), (numbers) => {
        const groups = grouped(numbers, (number) => number % 7);
        expect([...groups.values()].flat().length).toBe(numbers.length);
        for (const [key, group] of groups)
          expect(group).toEqual(numbers.filter((number) => number % 7 === key));
      }),
    );
  });
});
