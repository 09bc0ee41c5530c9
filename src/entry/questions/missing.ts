/** Which of the options that a record can't do without are missing. */
import { FIELDS } from '../../../schema/generated/fields.js';
import type { Kind } from '../../book.ts';
import { valueAt, type RawMap } from '../../read/raw.ts';
import { fieldOptions, onlyOneOf, type FieldOption } from '../fields.ts';

/** Filled in where they are left out. */
const FILLED_IN = new Set(['date', 'versions.from', 'meter.before']);

/**
 * The options without which a record of the kind is not sound, as far as they are not given; of
 * fields that stand for each other the first.
 */
export function missingOptions(kind: Kind, fields: RawMap): readonly FieldOption[] {
  const options = fieldOptions(kind);
  const isGiven = (option: FieldOption): boolean => valueAt(fields, option.path) !== undefined;
  const { oneOf = [] } = FIELDS[kind];
  const [first, ...others] = options.filter(({ name }) => oneOf.includes(name));
  const lacksOne = first && ![first, ...others].some(isGiven);
  return options.filter((option) =>
    option === first ? lacksOne : option.required && !isFilledIn(option) && !isGiven(option),
  );
}

function isFilledIn({ path }: FieldOption): boolean {
  return FILLED_IN.has(path.filter((step) => typeof step === 'string').join('.'));
}

/** Whether another field that stands for the named one is there. */
export function isStoodFor(kind: Kind, fields: RawMap, name: string | undefined): boolean {
  const group = onlyOneOf(kind).find((names) => names.some((each) => each === name)) ?? [];
  return group.some((other) => other !== name && fields[other] !== undefined);
}
