/** Sound values for any field, at random: by its spec, from its example, and out of a studio's own days and ids. */
import type {
  FieldSpec,
  MapSpec,
  RecordSpec,
  ScalarSpec,
  ScalarType,
} from '../../../schema/generated/fields.js';
import type { Kind } from '../../../src/book.ts';
import type { Raw, RawMap } from '../../../src/read/raw.ts';
import type { RandomSource } from '../../helpers/random-source.js';

/** What values are taken from. */
export interface Values {
  readonly random: RandomSource;
  /** A day of the studio. */
  readonly day: () => string;
  readonly ids: (kind: Kind) => readonly string[];
}

type Make = (values: Values, spec: ScalarSpec) => string;

const number: Make = ({ random }) => String(random.int(1, 40) / 4);
const share: Make = ({ random }) => `${random.int(1, 99)}%`;

/** A concentration or another amount that a text says with its unit. */
const AMOUNT = /^[\d.]+(?= .?g\/)/;

const SCALARS: Readonly<Record<ScalarType, Make>> = {
  text: ({ random }, { example, words = [] }) => {
    if (/^\d{4}$/.test(example)) return String(random.int(2020, 2029));
    if (AMOUNT.test(example)) return example.replace(AMOUNT, String(random.int(1, 40) / 4));
    return random.pick([example, ...words, 'rain', '7', '03-05', 'county', 'town']);
  },
  day: ({ day }) => day(),
  paid: ({ random, day }) => (random.chance(0.4) ? 'no' : day()),
  time: ({ random }) => `${String(random.int(0, 23)).padStart(2, '0')}:30`,
  amount: number,
  rate: number,
  number,
  count: ({ random }) => String(random.int(1, 12)),
  quantity: ({ random }, { example }) => `${random.int(1, 40) / 4} ${unitOf(example)}`.trim(),
  percent: share,
  discount: (values, spec) =>
    values.random.chance(0.5) ? share(values, spec) : number(values, spec),
  cone: ({ random }) => random.pick(['04', '6', '10']),
  measured: (_, { example }) => example,
  length: ({ random }) => `${random.int(80, 200)} mm`,
  power: ({ random }) => `${random.int(2, 12)} kW`,
  'heat-content': ({ random }) => random.pick(['10.8 kWh/m3-gas', '25 kWh/gal']),
};

const unitOf = (example: string): string => /[a-z][a-z\d-]*$/i.exec(example)?.[0] ?? '';

/** A value that the field may have; a text of an odd form may yet be unsound. */
export function valueFor(spec: FieldSpec, values: Values): Raw {
  const { random } = values;
  if (isScalar(spec)) return SCALARS[spec.type](values, spec);
  switch (spec.type) {
    case 'list':
      return Array.from({ length: random.int(1, 2) }, () => valueFor(spec.of, values));
    case 'map':
      return mapFor(spec, values);
    case 'record':
      return recordFor(spec, values);
    case 'either':
      return valueFor(random.chance(0.5) ? spec.record : spec.other, values);
    case 'word':
      return random.pick(spec.words);
    case 'reference':
      return random.pick([...spec.to.flatMap(values.ids), ...(spec.words ?? []), 'other']);
  }
}

function isScalar(spec: FieldSpec): spec is ScalarSpec {
  return spec.type in SCALARS;
}

function mapFor({ of, keys = [], keysTo = [] }: MapSpec, values: Values): RawMap {
  const all = [...keys, ...keysTo.flatMap(values.ids), ...(keys.length > 0 ? [] : ['sundry'])];
  return { [values.random.pick(all)]: valueFor(of, values) };
}

function recordFor(spec: RecordSpec, values: Values): RawMap {
  const { fields, required, oneOf = [], atMostOneOf = [] } = spec;
  const { random } = values;
  const out = new Set([...oneOf, ...atMostOneOf]);
  if (oneOf.length > 0) out.delete(random.pick(oneOf));
  const kept = Object.entries(fields).filter(
    ([key]) =>
      required.includes(key) || (!out.has(key) && (oneOf.includes(key) || random.chance(0.5))),
  );
  return Object.fromEntries(kept.map(([key, field]) => [key, valueFor(field, values)]));
}
