import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareCones, coneOrder, guideTemperature, parseCone } from '../../src/number/cone.ts';
import { holds } from '../helpers/law.ts';

/** Every cone by rising heat, written out by hand. */
const RISING =
  '022 021½ 021 020½ 020 019½ 019 018½ 018 017½ 017 016½ 016 015½ 015 014½ 014 013½ 013 012½ 012 ' +
  '011½ 011 010½ 010 09½ 09 08½ 08 07½ 07 06½ 06 05½ 05 04½ 04 03½ 03 02½ 02 01½ 01 ' +
  '1 1½ 2 2½ 3 3½ 4 4½ 5 5½ 6 6½ 7 7½ 8 8½ 9 9½ 10 10½ 11 11½ 12 12½ 13 13½ 14';
const CONES = RISING.split(' ');

describe('coneOrder', () => {
  it('rises strictly from 022 to 14', () => {
    const orders = CONES.map(coneOrder);
    const falls = orders.slice(1).filter((order, index) => !(order > orders[index]!));
    expect(falls).toEqual([]);
    expect(orders.every(Number.isFinite)).toBe(true);
  });

  it('puts 04 far below 4', () => {
    expect(compareCones('04', '4')).toBeLessThan(0);
    expect(compareCones('6', '06')).toBeGreaterThan(0);
    expect(compareCones('03½', '03½')).toBe(0);
  });

  it('sorts any list the same way', () => {
    holds(
      fc.property(fc.shuffledSubarray(CONES), (some) => {
        const inOrder = CONES.filter((cone) => some.includes(cone));
        expect(some.toSorted(compareCones)).toEqual(inOrder);
      }),
    );
  });
});

describe('parseCone', () => {
  it('takes every cone as it is written', () => {
    expect(CONES.map(parseCone)).toEqual(CONES);
  });

  it('turns 1/2 into ½', () => {
    expect(parseCone('03 1/2')).toBe('03½');
    expect(parseCone('5 1/2')).toBe('5½');
  });

  it.each([
    '',
    '0',
    '00',
    '0½',
    '½',
    '023',
    '022½',
    '022 1/2',
    '15',
    '14½',
    '004',
    '0044',
    '-4',
    '4.5',
    '031/2',
    '03  1/2',
    '03 ½',
    ' 6',
    '6 ',
    'cone 6',
    '6 1/4',
  ])('refuses "%s"', (text) => {
    expect(parseCone(text)).toBeUndefined();
    expect(coneOrder(text)).toBeNaN();
  });
});

describe('guideTemperature', () => {
  it('rises with the cone', () => {
    const known = CONES.map(guideTemperature).filter((degrees) => degrees !== undefined);
    expect(known.toSorted((a, b) => a - b)).toEqual(known);
    expect(new Set(known).size).toBe(known.length);
    expect(known.length).toBe(16);
  });

  it('is silent where no table was seen, and for what is no cone', () => {
    expect(guideTemperature('7')).toBeUndefined();
    expect(guideTemperature('hot')).toBeUndefined();
  });
});
