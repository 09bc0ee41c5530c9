/** Shows what left in the lots that it is of. */
import { readGone } from '../gone/said.ts';
import type { LotChange } from '../gone/in-lots.ts';
import { goneAnswers, type GoneErrand } from './gone-script.ts';
import { NO_OUTLOOK, type Preview } from './preview.ts';
import type { Answer } from './question.ts';
import { amendedPreview } from './record-preview.ts';

/** The first lot that changes; what is changed in several is shown when it is saved. */
export function gonePreview(errand: GoneErrand): Preview {
  const { opened, lexicon } = errand;
  const lotsOf = (answers: readonly Answer[]): readonly LotChange[] => {
    const { sentences, options } = goneAnswers(errand, answers);
    return readGone({ ...opened, lexicon }, sentences, options).lots;
  };
  const previewOf = ([first]: readonly LotChange[]): Preview | undefined =>
    first && amendedPreview(opened, first.record, () => first.amendments);
  return {
    record: (answers) => previewOf(lotsOf(answers))?.record(answers, undefined),
    outlook: (answers) => {
      const lots = lotsOf(answers);
      return lots.length === 1 ? (previewOf(lots)?.outlook(answers) ?? NO_OUTLOOK) : NO_OUTLOOK;
    },
  };
}
