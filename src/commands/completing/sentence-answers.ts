/** What a line of `add` can go on with while it is typed: the words and ids that go where the cursor stands. */
import type { RecordSpec } from '../../../schema/generated/fields.js';
import { KINDS, type Kind } from '../../book.ts';
import { WARE_OPTIONS, closingForm, closingSpec } from '../../entry/closing/said.ts';
import { GONE_FORM, goneSpec } from '../../entry/gone/said.ts';
import { CHANGE_FORM } from '../../entry/recipes/revise.ts';
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

/** How a line is typed, and the fields that it fills. */
interface LineForm {
  readonly form?: Form | undefined;
  readonly spec?: RecordSpec | undefined;
}

/** The form of the option that waits for a line, or of the command's own lines. */
function formWaiting({ command, words, waiting, given }: TypedLine): LineForm {
  const ofLines = command && FORMS_OF_COMMANDS[command.name];
  if (!waiting) return ofLines?.() ?? {};
  const name = flagOf(waiting).slice(2);
  const ending = given.has('--closing') ? WARE_OPTIONS.find((each) => each === name) : undefined;
  if (ending) return { form: closingForm(ending), spec: closingSpec(ending) };
  const kind = command?.name === 'revise' ? 'recipes' : words[0];
  return formOfOption(KINDS.find((each) => each === kind) ?? 'sales', name);
}

function formOfOption(kind: Kind, name: string): LineForm {
  const option = fieldOptions(kind).find((each) => each.name === name);
  return { form: option?.form, spec: option && itemSpec(option.spec) };
}

/** After a count, the products are what is offered. */
const PRODUCT_FIRST: Form = {
  ...GONE_FORM,
  grammar: { ...GONE_FORM.grammar, middle: ['product', 'glaze', 'how', 'grade', 'fair', 'lot'] },
};

/** Of commands that take lines as their words. */
const FORMS_OF_COMMANDS: Readonly<Record<string, () => LineForm>> = {
  gone: () => ({ form: PRODUCT_FIRST, spec: goneSpec() }),
  revise: () => ({ form: CHANGE_FORM, spec: formOfOption('recipes', 'base').spec }),
};

/** The kinds of records that a line may name. */
function kindsIn({ fields }: RecordSpec): Kind[] {
  return Object.values(fields).flatMap((spec) => (spec.type === 'reference' ? spec.to : []));
}
