/** The layouts of the tests are what they say they are, or the splice tests would prove nothing. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { layOut } from './layout.ts';
import { secondReading } from './second-reader.ts';
import { holds } from './law.ts';

test('a second parser reads each layout as the tree that it was made from', () => {
  holds(
    fc.property(fc.nat(1e9), fc.nat(5), (seed, size) => {
      const laid = layOut(seed, size);
      expect(secondReading(laid.text)).toEqual(laid.tree);
    }),
    500,
  );
});
