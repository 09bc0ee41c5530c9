/** What has changed from a day on, in words: the rate of an hour, and the definitions within a span. */
import type { Book, Day } from '../book.ts';
import { compareTexts } from '../text-order.ts';
import { changesInOrder, inForce, type Changing } from '../in-force.ts';

/** `24.00 an hour, 27.00 from 2026-05-01`: the labour rates up to a day; undefined where there is none. */
export function labourInWords({ studio }: Book, asOf: Day): string | undefined {
  const later = changesInOrder(studio).filter(({ from }) => from <= asOf);
  const rates = [
    { rate: studio.labourRate, since: '' },
    ...later.map(({ from }) => ({
      rate: inForce(studio, from).labourRate,
      since: ` from ${from}`,
    })),
  ];
  const known = rates.filter(({ rate }, index) => rate !== undefined || index > 0);
  if (known.every(({ rate }) => rate === undefined)) return undefined;
  return known
    .map(({ rate, since }, at) => {
      if (rate === undefined) return `nothing${since}`;
      return `${rate.toFixed(2)}${at === 0 ? ' an hour' : ''}${since}`;
    })
    .join(', ');
}

/**
 * Which of the products and all channels and the labour rate changed within a span, and when: their
 * figures above rest on what was in force on each day, prices and floors on what is in force at the end.
 */
export function changesInWords(
  { studio, channels, products }: Book,
  ids: readonly string[],
  span: { readonly from: Day; readonly to: Day },
): string[] {
  const named: (readonly [string, Changing | undefined])[] = [
    ...ids.map((id) => [id, products.get(id)] as const),
    ...[...channels].sort(([one], [other]) => compareTexts(one, other)),
    ['labour-rate', studio],
  ];
  const changed = named.flatMap(([name, definition]) => {
    const days = changesInOrder(definition ?? {}).map(({ from }) => from);
    const within = days.filter((day) => span.from <= day && day <= span.to);
    return within.length === 0 ? [] : [`${name} (${within.join(', ')})`];
  });
  if (changed.length === 0) return [];
  return [`Changed in this span: ${changed.join('; ')}.`];
}
