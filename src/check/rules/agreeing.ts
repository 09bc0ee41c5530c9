/** Two references of one record speak of the same thing. */
import type {
  ConsignedLine,
  CountedWare,
  Lot,
  NamedBook,
  Sale,
  SaleLine,
  Spent,
} from '../../book.ts';
import { keySpot, spot, type Say, type Sited } from '../finding.ts';
import { each, type EachScene, type Rule } from '../rule.ts';

const referencesDisagree: Rule = {
  name: 'references-disagree',
  severity: 'error',
  about:
    'A line names a lot of another product, or a mix of another recipe, than it says; or a record names a fair of another channel.',
  unsettles: true,
  looks: [
    each('sales', (sale, { book, say }) => {
      lookAtLots({ book, record: sale, say }, 'lines', sale.lines);
    }),
    each('consigned', (consigned, { book, say }) => {
      for (const list of ['sent', 'back', 'missing'] as const)
        lookAtLots({ book, record: consigned, say }, list, consigned[list] ?? []);
    }),
    each('counted', (counted, { book, say }) => {
      lookAtLots({ book, record: counted, say }, 'pieces', counted.pieces ?? []);
    }),
    each(['sales', 'spent'], lookAtFair),
    each('mixed', (mix, { book, say }) => {
      lookAtMix({ book, record: mix, say }, 'tops-up', { mix: mix.topsUp, recipe: mix.recipe });
    }),
    each('pieces', lookAtMixes),
    each('tests', (test, { book, say }) => {
      lookAtMix({ book, record: test, say }, 'mix', test);
    }),
  ],
};

interface Naming {
  readonly book: NamedBook;
  readonly record: Sited;
  readonly say: Say;
}

function lookAtFair(record: Sale | Spent, { book, say }: EachScene): void {
  const { channel, fair: id } = record;
  if (id === undefined) return;
  const fair = book.fairs.get(id);
  if (fair === undefined || channel === undefined || fair.channel === channel) return;
  // That the fair itself has an unfit channel is told there.
  if ((book.channels.get(fair.channel)?.kind ?? 'fair') !== 'fair') return;
  say({
    at: spot(record, 'fair'),
    message: `${fair.id} is a fair of ${fair.channel}; this record says ${channel}`,
    hint: `write channel: ${fair.channel}, or name a fair of ${channel}`,
    related: [{ at: keySpot(fair), message: 'the fair' }],
  });
}

function lookAtLots(
  { book, record, say }: Naming,
  list: string,
  lines: readonly (SaleLine | ConsignedLine | CountedWare)[],
): void {
  lines.forEach(({ lot: id, product }, index) => {
    const lot = id === undefined ? undefined : book.pieces.get(id);
    if (lot === undefined || product === undefined || lot.product === product) return;
    say({
      at: spot(record, list, index, 'lot'),
      message: `lot ${lot.id} is of ${lot.product}; this line says ${product}`,
      hint: `write product: ${lot.product}, or name a lot of ${product}`,
      related: [{ at: keySpot(lot), message: 'the lot' }],
    });
  });
}

function lookAtMix(
  { book, record, say }: Naming,
  key: string,
  said: { readonly mix?: string | undefined; readonly recipe?: string | undefined },
): void {
  const mix = said.mix === undefined ? undefined : book.mixed.get(said.mix);
  if (mix === undefined || said.recipe === undefined || mix.recipe === said.recipe) return;
  say({
    at: spot(record, key),
    message: `mix ${mix.id} is a batch of ${mix.recipe}; this record says ${said.recipe}`,
    hint: `write recipe: ${mix.recipe}, or name a mix of ${said.recipe}`,
    related: [{ at: keySpot(mix), message: 'the mix' }],
  });
}

/** The mixes that a lot's glazes were taken from. */
function lookAtMixes(record: Lot, { book, say }: EachScene): void {
  for (const [recipe, id] of Object.entries(record.mixes ?? {})) {
    const mix = book.mixed.get(id);
    if (mix === undefined || mix.recipe === recipe) continue;
    say({
      at: spot(record, 'mixes', recipe),
      message: `mix ${id} is a batch of ${mix.recipe}; this line says ${recipe}`,
      hint: `write ${mix.recipe}: ${id}, or name a mix of ${recipe}`,
      related: [{ at: keySpot(mix), message: 'the mix' }],
    });
  }
}

/** The rules on references that belong together. */
export const AGREEING_RULES: readonly Rule[] = [referencesDisagree];
