/** Where a record stands, and how it is written, never changes a figure. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { growStudio, layouts, studioPlan } from '../helpers/random-studio.ts';
import { PATIENCE, holds } from './support/law.ts';
import { openFiles } from './support/open.ts';
import { everyJson } from './support/reports.ts';
import { differing } from './support/differing.ts';

describe('the same records in other files, orders and styles', () => {
  it('give every report byte for byte', { timeout: PATIENCE }, async () => {
    const property = fc.asyncProperty(
      studioPlan({ breaks: 'some' }),
      fc.nat(),
      async (plan, seed) => {
        const { files, asOf } = growStudio(plan);
        const { book } = await openFiles(files, asOf);
        const { book: other } = await openFiles(layouts(files, seed), asOf);
        expect(differing(everyJson(other, asOf), everyJson(book, asOf))).toEqual([]);
      },
    );
    await holds(property, 20);
  });
});
