/** `saggar tests`: what was tried, by recipe, class and verdict; a page has the photos in it. */
import { flow } from '../../reckon/flow.ts';
import { pictureIn, type NoPicture } from '../../read/pictures/picture.ts';
import {
  testsAsked,
  testsTable,
  type PhotoShown,
  type TestsAsked,
} from '../../report/claims/tests.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { OpenedBook } from '../studio/open.ts';
import { isRefusal } from '../world.ts';
import { askedSpan } from '../reports/span.ts';
import type { Report } from '../reports/show.ts';

/** Every test that is asked for, the newest first. */
export const tests: Report<OptionsOf<'tests'>> = {
  table: (opened, { argument: recipe, options }) => {
    const { book, asOf } = opened;
    const span = askedSpan(options, book, asOf);
    if (isRefusal(span)) return span;
    if (recipe !== undefined && !book.recipes.has(recipe))
      return unknownId('recipe', recipe, book.recipes.values());
    if (options.class !== undefined && !book.classes.has(options.class))
      return unknownId('class', options.class, book.classes.values());
    const { class: of, kind, verdict } = options;
    const to = span.to < asOf ? span.to : asOf;
    const asked = { recipe, class: of, kind, verdict, from: span.from, to };
    const photos = options.as === 'html' ? { photos: photosOf(opened, asked) } : {};
    return testsTable(book, flow(book, asOf).stock.asOf, { asked, ...photos });
  },
};

/** The photos of the tests; of a commit none, for what is on the disk may be another. */
function photosOf(
  { book, folder, commit }: OpenedBook,
  asked: TestsAsked,
): ReadonlyMap<string, PhotoShown> {
  const photos = testsAsked(book, asked).flatMap(
    ({ id, photo, kind, recipe = '' }): (readonly [string, PhotoShown])[] => {
      if (photo === undefined) return [];
      if (commit) return [[id, photo]];
      const picture = pictureIn(folder, photo);
      if ('why' in picture) return [[id, noPictureWords(photo, picture)]];
      const data = picture.bytes.toString('base64');
      return [[id, { type: picture.type, data, alt: `${kind} ${id} ${recipe}`.trim() }]];
    },
  );
  return new Map(photos);
}

const KIBIBYTE = 1024;

function noPictureWords(photo: string, { why, size }: NoPicture): string {
  if (why === 'absent') return `${photo} (not in this copy of the studio)`;
  if (why === 'unfit') return `${photo} (not a JPEG, PNG or WebP picture that can be shown)`;
  return `${photo} (${Math.ceil(size / KIBIBYTE)} KB: pages have pictures of up to 300 KB)`;
}
