/** Lots as they were at the end of a month, as data that can be kept. */
import type { Book, Day, Firing, LoadLine, Lot } from '../../book.ts';
import type { GlazeUse } from '../../definitions.ts';
import { inForce } from '../../in-force.ts';
import { parseQuantity, type Quantity } from '../../number/unit.ts';
import type { Batch } from '../costs/cost.ts';
import {
  type KeptCost,
  type KeptPieces,
  costKept,
  keptCost,
  keptPieces,
  piecesKept,
  sure,
} from './columns.ts';
import {
  lotState,
  type KilnPile,
  type LostOutside,
  type LotPass,
  type LotState,
} from '../ware/lot.ts';
import type { LotStep } from '../ware/stages.ts';

type KeptBatch = readonly [all: KeptPieces, gone: KeptPieces];

interface KeptPassage {
  readonly firing: string;
  /** Index in the load. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly added: KeptCost;
}

/** A lot of pieces that were found, its quantities as texts. */
type FoundLot = Omit<Lot, 'glazes'> & {
  readonly glazes: readonly (Omit<GlazeUse, 'each'> & { readonly each: string })[] | undefined;
};

/** A lot as it stands. */
export interface KeptLot {
  readonly id: string;
  /** A lot that no record makes: pieces that were found. */
  readonly found: FoundLot | undefined;
  readonly wasThere: boolean;
  readonly making: KeptCost;
  readonly stages: readonly KeptBatch[];
  readonly shelf: KeptBatch;
  readonly inKiln: readonly (KeptPassage & { readonly pieces: KeptPieces })[];
  readonly places: ReadonlyMap<string, number>;
  readonly steps: readonly LotStep[];
  readonly passes: readonly KeptPassage[];
  readonly lostOutside: readonly LostOutside[];
  readonly gone: readonly KeptCost[];
  readonly finishedOn: Day | undefined;
}

/** A lot to be kept. */
export function keptLot(book: Book, state: LotState): KeptLot {
  const { lot, wasThere, places, steps, lostOutside, finishedOn } = state;
  return {
    id: lot.id,
    found: book.pieces.get(lot.id) === lot ? undefined : keptFound(lot),
    wasThere,
    making: keptCost(state.making),
    stages: state.stages.map(keptBatch),
    shelf: keptBatch(state.shelf),
    inKiln: state.inKiln.map((pile) => ({
      ...keptPassage(sure(book.firings.get(pile.firing), pile.firing), pile),
      pieces: keptPieces(pile),
    })),
    places,
    steps,
    passes: state.passes.map((pass) => keptPassage(pass.firing, pass)),
    lostOutside,
    gone: Array.from(state.gone, (cost) => cost && keptCost(cost)),
    finishedOn,
  };
}

function keptFound({ glazes, ...lot }: Lot): FoundLot {
  return { ...lot, glazes: glazes?.map(({ each, ...glaze }) => ({ ...glaze, each: each.text })) };
}

function foundKept({ glazes, ...lot }: FoundLot): Lot {
  if (!glazes) return lot;
  const quantity = (text: string): Quantity => sure(parseQuantity(text), lot.id);
  return {
    ...lot,
    glazes: glazes.map(({ each, ...glaze }) => ({ ...glaze, each: quantity(each) })),
  };
}

function keptPassage(
  firing: Firing,
  { line, from, to, added }: Pick<LotPass, 'line' | 'from' | 'to' | 'added'>,
): KeptPassage {
  return { firing: firing.id, line: firing.load.indexOf(line), from, to, added: keptCost(added) };
}

function keptBatch(batch: Batch): KeptBatch {
  return [keptPieces(batch), keptPieces(batch.gone)];
}

/** The lot as it stood; its records are those of the book. */
export function lotKept(book: Book, state: KeptLot): LotState {
  const { id } = state;
  const lot = state.found ? foundKept(state.found) : sure(book.pieces.get(id), id);
  const product = inForce(book.products.get(lot.product), lot.date);
  return {
    ...lotState(lot, product),
    wasThere: state.wasThere,
    making: costKept(state.making),
    stages: state.stages.map(batchKept),
    shelf: batchKept(state.shelf),
    inKiln: state.inKiln.map((pile) => pileKept(book, pile)),
    places: new Map(state.places),
    steps: [...state.steps],
    passes: state.passes.map((pass) => passKept(book, pass)),
    lostOutside: [...state.lostOutside],
    gone: state.gone.map(costKept),
    finishedOn: state.finishedOn,
  };
}

function passKept(book: Book, { firing: id, line, from, to, added }: KeptPassage): LotPass {
  return {
    get firing() {
      return sure(book.firings.get(id), id);
    },
    get line() {
      return loadLineAt(this.firing, line);
    },
    from,
    to,
    added: costKept(added),
  };
}

function pileKept(book: Book, kept: KeptLot['inKiln'][number]): KilnPile {
  const { firing, line, from, to, added, pieces } = kept;
  return {
    firing,
    get line() {
      return loadLineAt(sure(book.firings.get(firing), firing), line);
    },
    from,
    to,
    added: costKept(added),
    ...piecesKept(pieces),
  };
}

function loadLineAt({ id, load }: Firing, index: number): LoadLine {
  return sure(load[index], id);
}

function batchKept([all, gone]: KeptBatch): Batch {
  return { ...piecesKept(all), gone: piecesKept(gone) };
}
