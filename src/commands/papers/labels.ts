/** `saggar paper labels …`: for which pieces, and on which label sheet. */
import { countIn } from '../../grouping.ts';
import type { ConsignedLine, Grade } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { readAmendment } from '../../entry/amendment.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { inForce } from '../../in-force.ts';
import { decimal } from '../../number/decimal.ts';
import { isMap, textUnder, type RawMap } from '../../read/raw.ts';
import { flow } from '../../reckon/flow.ts';
import { STUDIO_PLACE, placedPieces } from '../../reckon/ware/lot.ts';
import { careStatements } from '../../report/claims/claim-words.ts';
import { labelPaper } from '../../report/papers/labels.ts';
import { isOnPaper, labelSheets } from '../../report/papers/label-sheets.ts';
import type { PaperScene } from '../../report/papers/letter.ts';
import type { LabelSheet } from '../../report/papers/paper.ts';
import { warePrice } from '../../report/papers/ware-price.ts';
import type { OptionsOf } from '../catalogue.ts';
import { unknownWord } from '../ids.ts';
import type { Scene } from '../records/change.ts';
import { isRefusal, type Refusal } from '../world.ts';
import type { MadePaper } from './made.ts';

type LabelOptions = OptionsOf<'paper'>;

/** More are a slip of the pen. */
const MOST_LABELS = 5000;

/** The labels of what is named: deliveries, lots that are in the studio, or ware in words. */
export function labelsAsked(
  { asked, opened }: Scene<LabelOptions>,
  scene: PaperScene,
  words: readonly string[],
): MadePaper | Refusal {
  if (words.length === 0)
    return { refused: 'say for what: "12 mug oatmeal", a lot, or a delivery to a gallery' };
  const place = placeAsked(scene, asked.options);
  if (isRefusal(place)) return place;
  const lines: ConsignedLine[] = [];
  for (const word of words) {
    const found = linesNamed(scene, word) ?? lineTyped(opened, word);
    if (isRefusal(found)) return found;
    lines.push(...found);
  }
  const odd = lines.flatMap((line) => otherLot(scene, line) ?? [])[0];
  if (odd !== undefined) return { refused: odd };
  const count = countIn(lines);
  if (count > MOST_LABELS)
    return { refused: `${count} labels are too many at once: at most ${MOST_LABELS}` };
  return { paper: labelPaper(scene, lines, place), notes: labelNotes(scene, lines) };
}

function otherLot({ book }: PaperScene, { product, lot = '' }: ConsignedLine): string | undefined {
  const made = book.pieces.get(lot)?.product;
  return made === undefined || made === product
    ? undefined
    : `${lot} is a lot of ${made}, not of ${product}`;
}

interface LabelPlace {
  readonly sheet: LabelSheet;
  readonly used: number;
}

/** Where Letter paper is usual. */
const LETTER_CURRENCIES: readonly string[] = ['USD', 'CAD'];

function placeAsked(
  { book }: PaperScene,
  { labelSheet: name, start = '1' }: Pick<LabelOptions, 'labelSheet' | 'start'>,
): LabelPlace | Refusal {
  const { papers, currency } = book.studio;
  const sheets = labelSheets(papers?.labelSheets);
  const usual = LETTER_CURRENCIES.includes(currency) ? 'Letter-3x10' : 'A4-3x8';
  const sheet = sheets.find(
    (each) => each.name === (name ?? papers?.labelSheets?.[0]?.name ?? usual),
  );
  if (!sheet)
    return unknownWord(
      '--label-sheet',
      name ?? '',
      sheets.map((each) => each.name),
    );
  if (!isOnPaper(sheet))
    return {
      refused: `the labels of ${sheet.name} do not go on ${sheet.paper}: measure them again, in millimetres`,
    };
  const most = sheet.columns * sheet.rows;
  const first = /^\d{1,4}$/.test(start) ? Number(start) : 0;
  if (first < 1 || first > most)
    return { refused: `--start takes a label of the sheet, from 1 to ${most}, and not "${start}"` };
  return { sheet, used: first - 1 };
}

/** What a delivery sent, or what the studio has of a lot; undefined for any other word. */
function linesNamed(
  { book, asOf }: PaperScene,
  id: string,
): readonly ConsignedLine[] | Refusal | undefined {
  const consigned = book.consigned.get(id);
  if (consigned) return consigned.sent ?? [];
  const lot = book.pieces.get(id);
  if (!lot) return undefined;
  const state = flow(book, asOf).ware.lots.get(id);
  const there = state ? placedPieces(state).filter(({ place }) => place === STUDIO_PLACE) : [];
  if (there.length === 0)
    return {
      refused: `no finished pieces of ${id} are in the studio on ${asOf}; say how many: "12 ${lot.product} lot ${id}"`,
    };
  const glaze = lot.glazes?.[0]?.recipe;
  return there.map(({ grade, count }) => {
    return {
      product: lot.product,
      lot: id,
      grade,
      count,
      ...(glaze === undefined ? {} : { glaze }),
    };
  });
}

function lineTyped(
  { reading, asOf }: Scene['opened'],
  sentence: string,
): ConsignedLine[] | Refusal {
  const ground = { lexicon: lexiconOf(reading.files), day: asOf };
  const read = readAmendment(`sent.1=${sentence}`, 'consigned', ground);
  if (isRefusal(read)) return read;
  const [fault] = 'faults' in read ? read.faults : [];
  if (fault) return { refused: `"${sentence}": ${fault.message}; ${fault.hint}` };
  const value = 'value' in read ? read.value : undefined;
  return isMap(value) ? lineOf(value, sentence) : { refused: `"${sentence}" is not ware` };
}

function lineOf(fields: RawMap, sentence: string): ConsignedLine[] | Refusal {
  const text = (name: string): string | undefined => textUnder(fields, name) || undefined;
  const product = text('product');
  const count = text('count') ?? '';
  if (product === undefined || !/^[1-9]\d{0,5}$/.test(count))
    return {
      refused: `"${sentence}" is not ware: write how many of which product, as in "12 mug"`,
    };
  const [lot, glaze, price] = [text('lot'), text('glaze'), text('price')];
  return [
    {
      product,
      count: Number(count),
      ...(lot === undefined ? {} : { lot }),
      ...(glaze === undefined ? {} : { glaze }),
      ...(text('grade') === 'second' ? { grade: 'second' satisfies Grade } : {}),
      ...(price === undefined ? {} : { price: decimal(price) }),
    },
  ];
}

const SCALE = 'print it at 100 %, not fitted to the page, and try one on plain paper first';

/** What is not on the labels, and why. */
function labelNotes({ book, asOf }: PaperScene, lines: readonly ConsignedLine[]): string[] {
  const open = lines.filter((line) => warePrice(book, line, asOf) === undefined);
  const products = [...new Set(lines.map(({ product }) => product))];
  const untested = products.flatMap((id) => {
    const product = book.products.get(id);
    const words = product ? careStatements(book, product, asOf) : [];
    const without = words.filter(({ mayBePrinted }) => !mayBePrinted);
    const name = inForce(product, asOf)?.id ?? id;
    return without.length === 0 ? [] : [`${listed(without.map(({ care }) => care))} (${name})`];
  });
  return [
    SCALE,
    ...(open.length === 0
      ? []
      : [`without a price: ${listed(open.map(({ product }) => product))}`]),
    ...(untested.length === 0
      ? []
      : [`left out, for no test that is on record says so: ${untested.join(', ')}`]),
  ];
}
