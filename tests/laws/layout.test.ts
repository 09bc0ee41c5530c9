/** Where a record stands, and how it is written, never changes a figure. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layouts, studioPlan } from '../helpers/random-studio.ts';
import { filesOf } from './support/broken.ts';
import { dayIn, part } from './support/days.ts';
import { holds } from '../helpers/law.ts';
import { openFiles } from './support/open.ts';
import { everyJson } from './support/reports.ts';
import { differing } from './support/differing.ts';

describe('the same records in other files, orders and styles', () => {
  it('give every report byte for byte', async () => {
    const property = fc.asyncProperty(
      studioPlan({ breaks: 'some' }),
      fc.record({ spoiling: fc.option(fc.nat(), { nil: undefined }), layout: fc.nat() }),
      fc.oneof(part, fc.constant(1)),
      async (plan, { spoiling, layout }, when) => {
        const files = filesOf(plan, spoiling);
        const day = dayIn(plan, when);
        const { book } = await openFiles(files, day);
        const { book: other } = await openFiles(layouts(files, layout), day);
        expect(differing(everyJson(other, day), everyJson(book, day))).toEqual([]);
      },
    );
    await holds(property, 3);
  });
});
