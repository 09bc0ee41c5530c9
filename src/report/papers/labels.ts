/** Price labels: what is on each, and on which sheet. */
import type { ConsignedLine } from '../../book.ts';
import { inForce } from '../../in-force.ts';
import { booked } from '../../reckon/booked.ts';
import { careStatements } from '../claims/claim-words.ts';
import { careText } from './care-words.ts';
import { letterOf, lotNumber, saidTexts, wareDetails, type PaperScene } from './letter.ts';
import type { Label, LabelPaper, LabelSheet } from './paper.ts';
import { warePrice } from './ware-price.ts';

/** Below this height in millimetres there is no room for words on care. */
const CARE_HEIGHT = 25;

/** A label for each piece; `used` labels of the first sheet are passed over. */
export function labelPaper(
  scene: PaperScene,
  lines: readonly ConsignedLine[],
  { sheet, used }: { readonly sheet: LabelSheet; readonly used: number },
): LabelPaper {
  const { language, studio } = letterOf(scene);
  const labels = lines.flatMap((line) => {
    const label = labelFor(scene, line, sheet);
    return Array.from({ length: line.count }, () => label);
  });
  return { language, studio, title: scene.wording.say('labels'), sheet, used, labels };
}

function labelFor(scene: PaperScene, line: ConsignedLine, { height }: LabelSheet): Label {
  const { book, asOf, wording } = scene;
  const price = warePrice(book, line, asOf);
  const product = book.products.get(line.product);
  const care = product ? careStatements(book, product, asOf) : [];
  const claims = height < CARE_HEIGHT ? [] : care.filter((word) => word.care !== 'ornamental');
  return {
    name: inForce(product, asOf)?.name ?? line.product,
    more: wareDetails(scene, line),
    price:
      price === undefined ? '' : `${wording.money(booked(book, price))} ${book.studio.currency}`,
    caution: care.some((word) => word.care === 'ornamental') ? wording.say('ornamental') : '',
    number: lotNumber(book, line.lot),
    care: saidTexts(...claims.map((word) => careText(scene, word))),
  };
}
