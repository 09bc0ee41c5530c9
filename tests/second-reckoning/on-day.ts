/** What a definition says on a day, put together from its changes without the program's way. */
import type { Book, Channel, Day, Product, Studio, StudioClass } from '../../src/book.ts';

interface Change {
  readonly from: Day;
  readonly without?: readonly string[];
}

/** Later changes overwrite earlier ones; a field that is taken out is taken out before the others are set. */
function asOn<T extends object>(first: T, changes: readonly Change[] | undefined, day: Day): T {
  const due = [...(changes ?? [])].filter(({ from }) => day >= from);
  due.sort((one, other) => (one.from > other.from ? 1 : -1));
  const says = { ...first } as Record<string, unknown>;
  for (const change of due) {
    const gone = (change.without ?? []).map((key) =>
      key
        .split('-')
        .map((word, at) => (at === 0 ? word : word.charAt(0).toUpperCase() + word.slice(1)))
        .join(''),
    );
    for (const name of gone) says[name] = undefined;
    const { from, without, note } = says;
    Object.assign(says, change, { from, without, note });
  }
  return says as T;
}

export function productOn(book: Book, id: string | undefined, day: Day): Product | undefined {
  const product = book.products.get(id ?? '');
  return product && asOn(product, product.changes, day);
}

export function channelOn(book: Book, id: string | undefined, day: Day): Channel | undefined {
  const channel = book.channels.get(id ?? '');
  return channel && asOn(channel, channel.changes, day);
}

export function classOn(book: Book, id: string | undefined, day: Day): StudioClass | undefined {
  const taught = book.classes.get(id ?? '');
  return taught && asOn(taught, taught.changes, day);
}

export function labourRateOn({ studio }: Book, day: Day): Studio['labourRate'] {
  return asOn(studio, studio.changes, day).labourRate;
}
