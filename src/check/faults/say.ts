/** The sentences that name a value, what is wrong with it and how to write it. */
import { dimensionOf, isUnit, UNITS, type Dimension, type Unit } from '../../number/unit.ts';
import { listed } from '../finding.ts';
import { nearest } from '../../nearest.ts';
import { everydayDigits } from './numerals.ts';

/** A value that is not as it should be. */
export interface Said {
  /** The field, as in the file. */
  readonly name: string;
  /** The value as in the file, without quotes. */
  readonly text: string;
  /** A good value of this field. */
  readonly example: string;
  /** Whether a text has the form that the field wants; absent means that no form is known. */
  readonly fits?: (text: string) => boolean;
  /** What else can be meant by a minus, to be added to a hint. */
  readonly below?: string;
}

/** What is wrong, and how to put it right. */
export interface Wording {
  readonly message: string;
  readonly hint: string;
}

/** The words for a field without a value. */
export function emptyWording({ name, example }: Said): Wording {
  return {
    message: `${name} is empty`,
    hint: `write it as ${name}: ${example}`,
  };
}

/** Says what is wrong with a value. */
export type SayWhat = (said: Said) => Wording;

/** A value as it may stand in a sentence: in quotes, and not longer than a line. */
export function shown(text: string): string {
  return text.length > LONGEST_SHOWN ? `"${text.slice(0, LONGEST_SHOWN)}…"` : `"${text}"`;
}

const LONGEST_SHOWN = 40;

/** The usual sentence: the value, what it is not, and how to write it. */
export function amiss({ name, text }: Said, what: string, hint: string): Wording {
  return { message: `${name} is ${shown(text)}, ${what}`, hint };
}

/** The hint that shows the field with a good value. */
export function suchAs({ name, example }: Said): string {
  return `write it as ${name}: ${example}`;
}

/**
 * The hint that gives the one or the few ways to write what was meant; undefined where none of the
 * answers has the field's form.
 */
export function write(
  { fits }: Said,
  answers: readonly (string | undefined)[],
  quotes = '',
): string | undefined {
  const given = answers.filter((answer) => answer !== undefined && (fits?.(answer) ?? true));
  if (given.length === 0) return undefined;
  const whichever = given.length > 1 ? ', whichever you mean' : '';
  const written = given.map((answer) => `${quotes}${answer}${quotes}`);
  return `write ${listed(written, 'or')}${whichever}`;
}

const EVERYDAY_UNITS: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    gr: ['g'],
    grams: ['g'],
    grammes: ['g'],
    kilo: ['kg'],
    kilos: ['kg'],
    kgs: ['kg'],
    kilograms: ['kg'],
    tons: ['ton', 't'],
    tonne: ['t'],
    tonnes: ['t'],
    ounce: ['oz', 'floz'],
    ounces: ['oz', 'floz'],
    lbs: ['lb'],
    pound: ['lb'],
    pounds: ['lb'],
    '#': ['lb'],
    ml: ['mL'],
    millilitres: ['mL'],
    l: ['L'],
    liter: ['L'],
    liters: ['L'],
    litre: ['L'],
    litres: ['L'],
    pt: ['pint', 'imp-pint'],
    pints: ['pint', 'imp-pint'],
    quart: ['qt'],
    quarts: ['qt'],
    gallon: ['gal', 'imp-gal'],
    gallons: ['gal', 'imp-gal'],
    kwh: ['kWh'],
    m3: ['m3-gas'],
    therms: ['therm'],
    pcs: ['each'],
    pieces: ['each'],
  }),
);

const AMOUNT_AND_UNIT = /^((?:[\d.,]+ ?[x×] ?)?[\d.,]+)\s*(\S+)$/;

/** The words for what is no quantity, or one of something else than these dimensions. */
export function quantityIn(...dimensions: readonly Dimension[]): SayWhat {
  const units = (Object.keys(UNITS) as Unit[]).filter((unit) =>
    dimensions.includes(dimensionOf(unit)),
  );
  return (said) => {
    const [, digits = '', unit = ''] = AMOUNT_AND_UNIT.exec(said.text) ?? [];
    if (digits === '' || /^[\d.,]+$/.test(unit)) return noQuantity(said, units);
    if (units.includes(unit as Unit)) return amiss(said, ...badSpacing(said, digits, unit));
    if (isUnit(unit)) return wrongUnit(said, dimensions, units);
    return unknownUnit(said, { digits, unit, units });
  };
}

function noQuantity(said: Said, units: readonly string[]): Wording {
  const numbers = /^[\d.,]+$/.test(said.text) ? everydayDigits(said.text) : [];
  if (numbers.length > 0 && !units.includes('each'))
    return amiss(said, 'without a unit', withUnits(numbers, said.example, units));
  return amiss(
    said,
    'which is not a quantity',
    `write a number, a space and a unit, such as ${said.example}`,
  );
}

/** The number with each unit that may be meant, first with that of the field's example. */
function withUnits(numbers: readonly string[], example: string, units: readonly string[]): string {
  const [, usual = ''] = AMOUNT_AND_UNIT.exec(example)?.slice(1) ?? [];
  const ordered = [...units].sort((one, other) => Number(other === usual) - Number(one === usual));
  const [first = '', ...others] = ordered;
  const answers = numbers.map((number) => `${number} ${first}`);
  return `write ${listed(answers, 'or')}, or the number with ${listed(others, 'or')}, whichever it is`;
}

function badSpacing(said: Said, digits: string, unit: string): [string, string] {
  const parts = digits.split(/ ?[x×] ?/).map(everydayDigits);
  const plain = parts.every((answers) => answers.length === 1)
    ? parts.flat().join(' x ')
    : undefined;
  return [
    'which is not written as a quantity',
    write(said, [plain && `${plain} ${unit}`]) ??
      `write a number, a space and a unit, such as ${said.example}`,
  ];
}

function wrongUnit(
  said: Said,
  dimensions: readonly Dimension[],
  units: readonly string[],
): Wording {
  return amiss(
    said,
    `but ${listed(
      dimensions.map((dimension) => NOUNS[dimension]),
      'or',
    )} belongs there`,
    useOf(units),
  );
}

const MANY = 16;

function useOf(units: readonly string[]): string {
  return units.length > MANY
    ? 'use a unit such as g, kg, oz, lb, mL, L, pint or gal, or a bare number for a count'
    : `use ${listed(units, 'or')}`;
}

const NOUNS: Readonly<Record<Dimension, string>> = {
  weight: 'a weight',
  volume: 'a volume',
  energy: 'an amount of energy',
  gas: 'a volume of gas',
  count: 'a count',
};

interface AmountAndUnit {
  readonly digits: string;
  readonly unit: string;
  readonly units: readonly string[];
}

function unknownUnit(said: Said, { digits, unit, units }: AmountAndUnit): Wording {
  const near = nearest(unit, units);
  const meant = EVERYDAY_UNITS.get(unit.toLowerCase()) ?? (near === undefined ? [] : [near]);
  const known = meant.filter((word) => units.includes(word));
  return amiss(
    said,
    `and ${shown(unit)} is not one of the units`,
    write(
      said,
      known.map((word) => `${digits} ${word}`),
    ) ?? useOf(units),
  );
}
