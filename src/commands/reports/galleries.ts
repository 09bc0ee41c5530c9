/** `saggar galleries`: what galleries have, sold and owe; or what one has now, or its history. */
import { flow } from '../../reckon/flow.ts';
import { galleryCharts } from '../../report/charts/selling.ts';
import { galleriesTable, galleryHistory } from '../../report/galleries.ts';
import { galleryTable } from '../../report/gallery.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownId } from '../ids.ts';
import type { Report } from './show.ts';

/** How every gallery stands, or with an id what one has now, or with `--history` its deliveries. */
export const galleries: Report<OptionsOf<'galleries'>> = {
  table: ({ book, asOf }, { argument, options: { history } }) => {
    const flows = flow(book, asOf);
    if (argument === undefined)
      return history === true ? { refused: OF_WHICH } : galleriesTable(book, flows);
    const one = (history === true ? galleryHistory : galleryTable)(book, flows, argument);
    if (one) return one;
    const channels = [...book.channels.values()].filter(({ kind }) => kind === 'consignment');
    return unknownId('gallery', argument, channels);
  },
  charts: (_, { argument }, table) => (argument === undefined ? galleryCharts(table) : []),
};

const OF_WHICH = '--history is of one gallery: saggar galleries ID --history';
