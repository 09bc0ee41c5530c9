/** What to say of a value that has not the form of its type: what is wrong with it, and how to write it. */
import { PATTERNS } from '../../../schema/generated/fields.js';
import { isDay } from '../../number/date.ts';
import {
  everydayDigits,
  mendedDay,
  mendedPeriod,
  mendedSpan,
  mendedTime,
  plainDigits,
  wholeDigits,
} from './numerals.ts';
import { quantityIn } from './quantity-wording.ts';
import { amiss, emptyWording, suchAs, write, type Said, type Wording, type Words } from './say.ts';

/** The words for a value of a shared type (its name in values.json) that has not the type's form. */
export function wordingOf(valueType: string, said: Said): Wording {
  if (said.text.trim() === '') return emptyWording(said);
  const words = WORDINGS[valueType];
  const form = new RegExp(PATTERNS[valueType] ?? '', 'u');
  return words
    ? words({ ...said, fits: (text) => form.test(text) })
    : amiss(said, 'which does not belong here', suchAs(said));
}

const BELOW_ZERO = /^-\s*(?:\d|\.\d)/;
const ZERO = /^[0.]+(?: |$)/;

function aboveZero(words: Words): Words {
  return (said) =>
    ZERO.test(said.text)
      ? amiss(said, 'but it must be more than 0', `write how much it is, such as ${said.example}`)
      : words(said);
}

function notBelowZero(words: Words): Words {
  return (said) =>
    BELOW_ZERO.test(said.text)
      ? amiss(said, "but it can't be below 0", `write it without the minus, or take it out`)
      : words(said);
}

/** Longer numbers than the book holds: `before` digits before the point, 20 after it. */
function notTooLong(before: number, words: Words): Words {
  const long = new RegExp(`^-?\\d{${before + 1},}(?:\\.|$)|\\.\\d{21,}$`);
  const limit =
    before === LONGEST_COUNT ? `${before} digits` : `${before} before the point and 20 after it`;
  return (said) =>
    long.test(said.text)
      ? amiss(said, 'which has too many digits', `write at most ${limit}`)
      : words(said);
}

const LONGEST_COUNT = 9;
const LONGEST_NUMBER = 12;

function amountInDigits(said: Said): Wording {
  const answers = everydayDigits(said.text);
  return amiss(
    said,
    'which is not an amount in plain digits',
    write(said, answers) ?? `write digits with a point for the decimals, such as ${said.example}`,
  );
}

function numberInDigits(said: Said): Wording {
  const answers = everydayDigits(said.text);
  return amiss(
    said,
    'which is not a number in plain digits',
    write(said, answers) ?? `write digits with a point for the decimals, such as ${said.example}`,
  );
}

function countInDigits(said: Said): Wording {
  const whole = wholeDigits(plainDigits(said.text) ?? said.text);
  const bare = /^\D*(\d+)\D*$/.exec(said.text)?.[1];
  return amiss(
    said,
    'which is not a whole number',
    write(said, [whole ?? bare]) ?? `write a whole number, such as ${said.example}`,
  );
}

const amount = notTooLong(LONGEST_NUMBER, amountInDigits);
const number = notTooLong(LONGEST_NUMBER, numberInDigits);
const count = notTooLong(LONGEST_COUNT, countInDigits);

function density(said: Said): Wording {
  const answers = everydayDigits(said.text);
  return amiss(
    said,
    'which is not a density between 1 and 20',
    write(said, answers) ?? `write it against water, which is 1: such as ${said.example}`,
  );
}

function percent(said: Said): Wording {
  const digits = everydayDigits(said.text.replace(/percent|%/i, ''))[0];
  const fraction = digits?.startsWith('0.') === true && !said.text.includes('%');
  return amiss(
    said,
    'which is not a percentage',
    write(said, digits === undefined || fraction ? [] : [`${digits}%`]) ??
      `write a number and a percent sign, such as ${said.example}`,
  );
}

function share(said: Said): Wording {
  return /^\d{3,}(?:\.\d+)?%$/.test(said.text)
    ? amiss(said, 'which is more than 100%', `write a percentage from 0% to 100%`)
    : percent(said);
}

function cone(said: Said): Wording {
  const [, zero = '', number = ''] = /(0?)([1-9]\d?)/.exec(said.text) ?? [];
  const half = /\.5|½|1\/2/.test(said.text) ? '½' : '';
  const other = number === '' || /\.[0-46-9]/.test(said.text);
  return amiss(
    said,
    'which is not a cone',
    write(said, other ? [] : [`${zero}${number}${half}`], '"') ??
      'write it in quotes: "022" to "01", "1" to "14", or a half cone such as "5½"',
  );
}

/** A number that lacks one of a few endings. */
function ending(what: string, pattern: RegExp, endings: readonly string[]): Words {
  return (said) => {
    const [, digits, given = ''] = pattern.exec(said.text) ?? [];
    const fitting = endings.filter((end) => end.toLowerCase().includes(given.toLowerCase()));
    const answers = digits === undefined ? [] : fitting.map((end) => `${digits} ${end}`);
    return amiss(said, what, write(said, answers) ?? suchAs(said));
  };
}

const day: Words = (said) => {
  if (isDay(said.text)) return amiss(said, 'which is too far off', 'write a day from 1900 to 2099');
  const { real, answers } = mendedDay(said.text);
  const what = real
    ? 'which is not written as year-month-day'
    : 'which is not a day of the calendar';
  return amiss(said, what, write(said, answers) ?? `write year-month-day, such as ${said.example}`);
};

const id: Words = (said) => {
  const plain = said.text
    .trim()
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^[^A-Za-z]+|-+$/g, '');
  const mended = /^[A-Za-z]/.test(said.text) && said.fits?.(plain) === true ? `: ${plain}` : '';
  return amiss(
    said,
    "which can't be an id",
    `an id is a letter, then letters, digits and hyphens${mended}`,
  );
};

const quantity = quantityIn('weight', 'volume', 'energy', 'gas', 'count');
const weight = quantityIn('weight');

const WORDINGS: Readonly<Record<string, Words | undefined>> = {
  id,
  date: day,
  paid: (said) =>
    /^(?:yes|true|no|false|not yet)$/i.test(said.text)
      ? amiss(
          said,
          'which is neither a day nor no',
          'write the day it was paid, or no while it is owed',
        )
      : day(said),
  time: (said) =>
    amiss(
      said,
      'which is not a time of day',
      write(said, [mendedTime(said.text)]) ??
        `write it on the 24-hour clock, such as ${said.example}`,
    ),
  'hours-of-day': (said) =>
    amiss(
      said,
      'which is not a span of hours',
      write(said, [mendedSpan(said.text)]) ??
        `write from and to on the 24-hour clock, such as ${said.example}`,
    ),
  period: (said) =>
    amiss(
      said,
      'which is not a quarter or a year',
      write(said, [mendedPeriod(said.text)]) ?? 'write a quarter such as 2026-Q1, or a year',
    ),
  'month-day': (said) =>
    amiss(said, 'which is not a day of the year', `write month-day in quotes, such as "04-06"`),
  amount: notBelowZero(amount),
  'amount-or-refund': amount,
  rate: notBelowZero(amount),
  number: notBelowZero(number),
  'positive-number': notBelowZero(aboveZero(number)),
  density,
  count: notBelowZero(count),
  'positive-count': notBelowZero(aboveZero(count)),
  quantity: notBelowZero(quantity),
  'positive-quantity': notBelowZero(aboveZero(quantity)),
  weight: notBelowZero(weight),
  'positive-weight': notBelowZero(aboveZero(weight)),
  'weight-or-volume': notBelowZero(quantityIn('weight', 'volume')),
  energy: notBelowZero(quantityIn('energy')),
  percent,
  share,
  discount: notBelowZero((said) => (said.text.includes('%') ? share(said) : amount(said))),
  cone,
  temperature: ending('which is not a temperature', /^([\d.]+)\s*°?\s*([cf]?)$/i, ['°C', '°F']),
  distance: ending('which is not a distance', /^([\d.]+)\s*(k|km|mi|m)?(?:s|les)?$/i, ['km', 'mi']),
  power: ending('which is not a power in kW', /^([\d.]+)\s*(kw)$/i, ['kW']),
  'heat-content': (said) =>
    amiss(
      said,
      'which is not a heat content',
      'write energy by unit of gas, such as 10.8 kWh/m3-gas or 1.037 therm/ccf',
    ),
  currency: (said) =>
    amiss(
      said,
      'which is not a currency',
      write(said, [said.text.toUpperCase()]) ?? 'write its three letters, such as USD or EUR',
    ),
  oxide: (said) =>
    amiss(said, 'which is not a formula', 'write the oxide as its formula, such as SiO2, or LOI'),
};
