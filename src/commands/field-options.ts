/** The fields of a kind as options of the command line, for completion. */
import type { FieldSpec } from '../../schema/generated/fields.js';
import type { Kind } from '../book.ts';
import { fieldOptions } from '../entry/fields.ts';
import type { OptionSpec } from './spec.ts';

/** An option for each field of a kind; a line of several values is completed word by word. */
export function fieldsAsOptions(kind: Kind): readonly OptionSpec[] {
  return fieldOptions(kind).map(({ name, title, repeats, spec, form }) => ({
    flags: `--${name} <value>`,
    about: title,
    repeats,
    ...(form ? { offers: 'sentence' as const } : standingIn(spec)),
  }));
}

/** What may stand in a field, where it is one of a few words or the id of a record. */
export function standingIn(spec: FieldSpec): Pick<OptionSpec, 'choices' | 'offers'> {
  const one = spec.type === 'list' ? spec.of : spec;
  const choices = 'words' in one ? { choices: one.words ?? [] } : {};
  return one.type === 'reference' ? { ...choices, offers: one.to } : choices;
}
