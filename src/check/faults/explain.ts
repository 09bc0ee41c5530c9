/** Turns what a validator says of a record into faults that a potter can act on. */
import type { ErrorObject } from 'ajv';
import { coreValidators } from '../../../schema/generated/core.js';
import { meantField, unknownField } from './misnamed.ts';
import { below, isObject, spotted, type Spotted, type Suspect } from './place.ts';
import {
  badKey,
  emptyList,
  formFault,
  missingField,
  namedTwice,
  valueFault,
  wrongChoice,
  type RecordFault,
} from './record-faults.ts';

/** All that is wrong with a record in itself, each fault once and at its own place. */
export function faultsOf(suspect: Suspect): readonly RecordFault[] {
  const validate = coreValidators()[suspect.kind];
  validate(suspect.value);
  const meant = (validate.errors ?? []).filter(isMeant);
  const misnamed = new Set(meant.flatMap((error) => misnamedField(suspect, error)));
  const errors = meant.filter((error) => !misnamed.has(missingKey(error)));
  const faults = errors.flatMap((error, index) =>
    index < MOST_EXPLAINED
      ? (explain(suspect, error) ?? [])
      : {
          path: [...suspect.path, error.instancePath + JSON.stringify(error.params)],
          on: 'key' as const,
          ...ALSO,
        },
  );
  const ill = new Set(faults.map(placeKey));
  const misshapen = formFaults(spotted(suspect, ''), suspect).filter(
    (fault) => !ill.has(placeKey(fault)),
  );
  return onceEach([...faults, ...misshapen]);
}

/** So many faults of a record are explained, many times more than will be told. */
const MOST_EXPLAINED = 1000;

/** The words for a fault among so many others that it is mostly just counted. */
export const ALSO = {
  message: 'something is wrong here too',
  hint: 'correct the faults above it first, then run the command again',
};

/** Whether anything is wrong with a record, which is told quicker than what it is. */
export function hasFaults(suspect: Suspect): boolean {
  const validate = coreValidators()[suspect.kind];
  return !validate(suspect.value) || formFaults(spotted(suspect, ''), suspect).length > 0;
}

// Of a choice between forms, what its branches say is no help beside what the choice itself says.
const WITHIN_CHOICE = /\/oneOf\/\d+\//;

function isMeant(error: ErrorObject): boolean {
  const ofBranch = WITHIN_CHOICE.test(error.schemaPath) || error.keyword === 'if';
  return !ofBranch && error.propertyName === undefined;
}

/** A field that is there under another name is not missing besides. */
function misnamedField(suspect: Suspect, { keyword, instancePath, params }: ErrorObject): string[] {
  if (keyword !== 'additionalProperties') return [];
  const name = meantField(spotted(suspect, instancePath), String(params['additionalProperty']));
  return name === undefined ? [] : [`${instancePath} ${name}`];
}

function missingKey({ keyword, instancePath, params }: ErrorObject): string {
  return keyword === 'required' ? `${instancePath} ${String(params['missingProperty'])}` : '';
}

function explain(suspect: Suspect, error: ErrorObject): RecordFault | undefined {
  const place = spotted(suspect, error.instancePath);
  const told = (name: string): string => String(error.params[name]);
  switch (error.keyword) {
    case 'required':
      return missingField(place, told('missingProperty'));
    case 'additionalProperties':
      return unknownField(place, told('additionalProperty'));
    case 'propertyNames':
      return badKey(place, told('propertyName'));
    case 'oneOf':
    case 'not':
      return wrongChoice(place);
    case 'minItems':
      return emptyList(place);
    case 'uniqueItems':
      return namedTwice(place, Math.max(Number(told('i')), Number(told('j'))));
    default:
      return valueFault(place, valueTypeOf(error), suspect.view);
  }
}

function valueTypeOf(error: ErrorObject): string {
  return /^values\.json#\/\$defs\/([\w-]+)\//.exec(error.schemaPath)?.[1] ?? '';
}

function formFaults(place: Spotted, suspect: Suspect): RecordFault[] {
  const { value } = place;
  if (!isObject(value)) return [formFault(place, suspect.view) ?? []].flat();
  return Object.keys(value).flatMap((key) => formFaults(below(place, key), suspect));
}

function placeKey({ path }: RecordFault): string {
  return JSON.stringify(path);
}

function onceEach(faults: readonly RecordFault[]): readonly RecordFault[] {
  const byPlace = new Map<string, RecordFault>();
  for (const fault of faults) {
    const key = `${placeKey(fault)} ${fault.on === 'key' ? fault.message : ''}`;
    if (!byPlace.has(key)) byPlace.set(key, fault);
  }
  return [...byPlace.values()];
}
