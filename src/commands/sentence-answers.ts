/** What a line of `add` can go on with while it is typed: the words and ids that go where the cursor stands. */
import type { FieldSpec, RecordSpec } from '../../schema/generated/fields.js';
import { PATTERNS } from '../../schema/generated/fields.js';
import { KINDS, type Kind } from '../book.ts';
import { WARE_OPTIONS, closingForm, closingSpec } from '../entry/closing/said.ts';
import { fieldOptions } from '../entry/fields.ts';
import type { Form } from '../entry/forms.ts';
import { lexiconOf } from '../entry/lexicon.ts';
import { sentenceOffers } from '../entry/questions/sentence-offers.ts';
import { findStudio } from '../read/find.ts';
import { openMemory } from '../read/memory.ts';
import { readStudio } from '../read/read.ts';
import type { Answer } from './answer-words.ts';
import { flagOf } from './flags.ts';
import type { Shelf } from './id-answers.ts';
import type { TypedLine } from './typed-line.ts';

/** The line with each word that may come next; none for an option that takes no line. */
export async function sentenceAnswers(
  { studio, storeFor }: Shelf,
  line: TypedLine,
): Promise<readonly Answer[]> {
  const { form, spec } = formAt(line);
  const folder = findStudio(studio);
  if (!form || !spec || folder === undefined) return [];
  const memory = openMemory(folder, storeFor(folder));
  const reading = await readStudio(folder, { memory, kinds: kindsIn(spec) });
  if ('refused' in reading) return [];
  const ground = { form, spec, lexicon: lexiconOf(reading.files), whole: [] };
  return sentenceOffers(ground, line.current)
    .filter(({ label }) => ID.test(label))
    .map((offer) => ({ word: offer.line.trimEnd(), about: offer.note }));
}

/** The form of the option that waits for a line, and the fields that it fills. */
function formAt({ words: [kind], waiting, given }: TypedLine): {
  readonly form?: Form | undefined;
  readonly spec?: RecordSpec | undefined;
} {
  const name = waiting && flagOf(waiting).slice(2);
  const ending = given.has('--closing') ? WARE_OPTIONS.find((each) => each === name) : undefined;
  if (ending) return { form: closingForm(ending), spec: closingSpec(ending) };
  const options = fieldOptions(KINDS.find((each) => each === kind) ?? 'sales');
  const option = options.find((each) => each.name === name);
  return { form: option?.form, spec: option && recordIn(option.spec) };
}

// An id that no record may have could act on the terminal, so it is left out.
const ID = new RegExp(PATTERNS['id'] ?? '', 'u');

function recordIn(spec: FieldSpec): RecordSpec | undefined {
  return spec.type === 'list' && spec.of.type === 'record' ? spec.of : undefined;
}

/** The kinds of records that a line may name. */
function kindsIn({ fields }: RecordSpec): Kind[] {
  return Object.values(fields).flatMap((spec) => (spec.type === 'reference' ? spec.to : []));
}
