/** `saggar galleries`: what stands at galleries, was sold there and is owed; or the deliveries to one. */
import { flow } from '../../reckon/flow.ts';
import { galleriesTable, galleryTable } from '../../report/galleries.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';

/** How every gallery stands, or with an id one gallery delivery by delivery. */
export const galleries: Report<OptionsOf<'galleries'>> = {
  table: ({ book, asOf }, { argument }) => {
    const flows = flow(book, asOf);
    if (argument === undefined) return galleriesTable(book, flows);
    const channels = [...book.channels.values()].filter(({ kind }) => kind === 'consignment');
    const known = channels.map(({ id }) => id);
    return galleryTable(book, flows, argument) ?? unknownId('gallery', argument, known);
  },
};
