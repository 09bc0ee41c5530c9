/** What a line of `add` can go on with while it is typed: the words and ids that go where the cursor stands. */
import type { RecordSpec } from '../../../schema/generated/fields.js';
import { KINDS, type Kind } from '../../book.ts';
import { WARE_OPTIONS, closingForm, closingSpec } from '../../entry/closing/said.ts';
import { fieldOptions, itemSpec } from '../../entry/fields.ts';
import type { Form } from '../../entry/form.ts';
import { lexiconOf } from '../../entry/lexicon.ts';
import { sentenceOffers } from '../../entry/questions/sentence-offers.ts';
import type { RawFile } from '../../read/raw.ts';
import { filesOfKinds, isId, type CompletionAnswer, type KnownStudio } from './answers.ts';
import { flagOf } from '../spec.ts';
import type { TypedLine } from './typed-line.ts';

/** The line with each word that may come next; none for an option that takes no line. */
export async function sentenceAnswers(
  studio: KnownStudio,
  line: TypedLine,
): Promise<readonly CompletionAnswer[]> {
  const { form, spec } = formWaiting(line);
  if (!form || !spec || studio.folder === undefined) return [];
  const files: RawFile[] = [];
  for await (const file of filesOfKinds(studio, kindsIn(spec))) files.push(file);
  return sentenceOffers({ form, spec, lexicon: lexiconOf(files), whole: [] }, line.current)
    .filter(({ label }) => isId(label))
    .map((offer) => ({ word: offer.line.trimEnd(), about: offer.note }));
}

/** The form of the option that waits for a line, and the fields that it fills. */
function formWaiting({ words: [kind], waiting, given }: TypedLine): {
  readonly form?: Form | undefined;
  readonly spec?: RecordSpec | undefined;
} {
  const name = waiting && flagOf(waiting).slice(2);
  const ending = given.has('--closing') ? WARE_OPTIONS.find((each) => each === name) : undefined;
  if (ending) return { form: closingForm(ending), spec: closingSpec(ending) };
  const options = fieldOptions(KINDS.find((each) => each === kind) ?? 'sales');
  const option = options.find((each) => each.name === name);
  return { form: option?.form, spec: option && itemSpec(option.spec) };
}

/** The kinds of records that a line may name. */
function kindsIn({ fields }: RecordSpec): Kind[] {
  return Object.values(fields).flatMap((spec) => (spec.type === 'reference' ? spec.to : []));
}
