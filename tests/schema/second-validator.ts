/** The published schemas in the hands of a second, unrelated validator. */
import { Validator, type Schema } from '@cfworker/json-schema';
import { NAMES, load } from '../../schema/build/shapes.js';
import type { Kind } from '../../src/book.ts';
import { coreView } from '../helpers/file-views.ts';

const validators = new Map(NAMES.map((name) => [name, validatorOf(name)]));

function validatorOf(name: string): Validator {
  const validator = new Validator(load(name) as Schema, '2020-12');
  validator.addSchema(load('values') as Schema);
  return validator;
}

/** Whether it accepts a file's text, as a YAML 1.2 core reader sees it. */
export function secondAccepts(kind: Kind | 'studio', text: string): boolean {
  return secondAcceptsValue(kind, coreView(text).root);
}

/** Whether it accepts the content of a file. */
export function secondAcceptsValue(kind: Kind | 'studio', content: unknown): boolean {
  return validators.get(kind)?.validate(content).valid === true;
}
