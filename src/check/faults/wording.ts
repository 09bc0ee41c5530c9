/** What to say of a value that has not the form of its type: what is wrong with it, and how to write it. */
import { PATTERNS } from '../../../schema/generated/fields.js';
import { isDay } from '../../number/date.ts';
import {
  everydayDigits,
  isIsoLike,
  likelyDays,
  likelyPeriod,
  likelySpan,
  likelyTime,
  plainDigits,
  wholeDigits,
} from './numerals.ts';
import {
  amiss,
  emptyWording,
  quantityIn,
  suchAs,
  write,
  type Said,
  type Wording,
  type SayWhat,
} from './say.ts';

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

function aboveZero(words: SayWhat): SayWhat {
  return (said) =>
    ZERO.test(said.text)
      ? amiss(said, 'but it must be more than 0', `write how much it is, such as ${said.example}`)
      : words(said);
}

function notBelowZero(words: SayWhat): SayWhat {
  return (said) =>
    BELOW_ZERO.test(said.text)
      ? amiss(said, "but it can't be below 0", aboveWithout(said))
      : words(said);
}

function aboveWithout(said: Said): string {
  const plain = said.text.replace(/^-\s*/, '');
  return `${write(said, [plain]) ?? `write it as ${plain}`} if the minus is a slip${said.below ?? ''}`;
}

/** Longer numbers than the book holds: `before` digits before the point, 20 after it. */
function notTooLong(before: number, words: SayWhat): SayWhat {
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

/**
 * The usual words: what it is not; what was most likely meant, in the one or the few ways to write that;
 * or else what to write. An example of the field follows where that ends in `such as`.
 */
function meant(
  what: string,
  answers: (text: string) => readonly (string | undefined)[],
  otherwise: string,
): SayWhat {
  return (said) => {
    const sample = otherwise.endsWith('such as') ? ` ${said.example}` : '';
    return amiss(said, what, write(said, answers(said.text)) ?? otherwise + sample);
  };
}

const IN_DIGITS = 'write digits with a point for the decimals, such as';

const inPlainDigits = notTooLong(
  LONGEST_NUMBER,
  meant('which is not an amount in plain digits', everydayDigits, IN_DIGITS),
);

const amount: SayWhat = (said) =>
  /%|percent/i.test(said.text)
    ? amiss(
        said,
        'a percentage, but an amount of money belongs there',
        `write what it came to in money, such as ${said.example}`,
      )
    : inPlainDigits(said);
const number = notTooLong(
  LONGEST_NUMBER,
  meant('which is not a number in plain digits', everydayDigits, IN_DIGITS),
);
const count = notTooLong(
  LONGEST_COUNT,
  meant('which is not a whole number', wholeNumbers, 'write a whole number, such as'),
);

function wholeNumbers(text: string): readonly (string | undefined)[] {
  const [, whole, part] = /^(\d+)(\.\d*[1-9]\d*)$/.exec(text) ?? [];
  if (part !== undefined) return [whole, String(Number(whole) + 1)];
  return [wholeDigits(plainDigits(text) ?? text) ?? inWords(text)];
}

const NUMBERS = 'one two three four five six seven eight nine ten eleven twelve'.split(' ');

/** The number in a text: `24 mugs`, `six`, `two dozen`. */
function inWords(text: string): string | undefined {
  const [, word = '', dozen] = /^(?:an? )?(\w*?) ?(dozen)?(?: \D*)?$/i.exec(text.trim()) ?? [];
  const at = NUMBERS.indexOf(word.toLowerCase());
  const digits = at >= 0 ? at + 1 : /^\d+$/.test(word) ? Number(word) : undefined;
  if (dozen !== undefined && (digits !== undefined || word === ''))
    return String(12 * (digits ?? 1));
  return digits === undefined ? /^\D*(\d+)\D*$/.exec(text)?.[1] : String(digits);
}

const percent = meant(
  'which is not a percentage',
  (text) => {
    const [digits] = everydayDigits(text.replace(/percent|%/i, ''));
    if (digits === undefined) return [];
    const isFraction = digits.startsWith('0.') && !text.includes('%');
    return isFraction ? [`${inHundredths(digits)}%`, `${digits}%`] : [`${digits}%`];
  },
  'write a number and a percent sign, such as',
);

/** `40` of `0.4`. */
function inHundredths(digits: string): string {
  return String(Math.round(Number(digits) * 1e8) / 1e6);
}

function share(said: Said): Wording {
  return /^\d{3,}(?:\.\d+)?%$/.test(said.text)
    ? amiss(
        said,
        'which is more than 100%',
        `write a percentage from 0% to 100%, such as ${said.example}`,
      )
    : percent(said);
}

function cone(said: Said): Wording {
  const text = said.text.replace(/(?<![a-z])o(?=\d)/i, '0');
  const [, zero = '', number = ''] = /(0?)([1-9]\d?)/.exec(text) ?? [];
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
function ending(what: string, pattern: RegExp, endings: readonly string[]): SayWhat {
  return (said) => {
    const [, digits, given = ''] = pattern.exec(said.text) ?? [];
    const fitting = endings.filter((end) => end.toLowerCase().includes(given.toLowerCase()));
    const answers = digits === undefined ? [] : fitting.map((end) => `${digits} ${end}`);
    return amiss(said, what, write(said, answers) ?? suchAs(said));
  };
}

const day: SayWhat = (said) => {
  if (isDay(said.text)) return amiss(said, 'which is too far off', 'write a day from 1900 to 2099');
  const answers = likelyDays(said.text);
  const what =
    answers.length > 0 && !isIsoLike(said.text)
      ? 'which is not written as year-month-day'
      : 'which is not a day of the calendar';
  return amiss(said, what, write(said, answers) ?? `write year-month-day, such as ${said.example}`);
};

const id: SayWhat = (said) => {
  const plain = said.text
    .trim()
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^[^A-Za-z]+|-+$/g, '');
  const form = 'an id is a letter, then letters, digits and hyphens';
  const isSure = /^[^\w-]*[A-Za-z]/.test(said.text);
  const likely = isSure ? write(said, [plain]) : undefined;
  const hint = likely === undefined ? form : `${likely}; ${form}`;
  return amiss(said, "which can't be an id", hint);
};

const NOT_PAID = /^(?:yes|true|no|false|not yet)$/i;

const paid: SayWhat = (said) =>
  NOT_PAID.test(said.text)
    ? amiss(
        said,
        'which is neither a day nor no',
        `write the day it was paid, such as ${said.example}, or no while it is owed`,
      )
    : day(said);

const quantity = quantityIn('weight', 'volume', 'energy', 'gas', 'count');
const weight = quantityIn('weight');

const WORDINGS: Readonly<Record<string, SayWhat | undefined>> = {
  id,
  date: day,
  paid,
  time: meant(
    'which is not a time of day',
    (text) => [likelyTime(text)],
    'write it on the 24-hour clock, such as',
  ),
  'hours-of-day': meant(
    'which is not a span of hours',
    (text) => [likelySpan(text)],
    'write from and to on the 24-hour clock, such as',
  ),
  period: meant(
    'which is not a quarter or a year',
    (text) => [likelyPeriod(text)],
    'write a quarter such as 2026-Q1, or a year',
  ),
  'month-day': meant(
    'which is not a day of the year',
    none,
    'write month-day in quotes, such as "04-06"',
  ),
  amount: notBelowZero(amount),
  'amount-or-refund': amount,
  rate: notBelowZero(amount),
  number: notBelowZero(number),
  'positive-number': notBelowZero(aboveZero(number)),
  density: meant(
    'which is not a density between 1 and 20',
    (text) => [...everydayDigits(text), ...everydayDigits(text).map(inThousandths)],
    'write it against water, which is 1: such as',
  ),
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
  length: ending('which is not a length', /^([\d.]+)\s*(mm|cm|in)?$/i, ['mm', 'cm', 'in']),
  power: (said) => {
    const watts = inKilowatts(said.text);
    const ended = ending('which is not a power in kW', /^([\d.]+)\s*(kw)?$/i, ['kW'])(said);
    return watts === undefined ? ended : { ...ended, hint: write(said, [watts]) ?? ended.hint };
  },
  'heat-content': meant(
    'which is not a heat content',
    none,
    'write energy by unit of gas, such as 10.8 kWh/m3-gas or 1.037 therm/ccf',
  ),
  currency: meant(
    'which is not a currency',
    (text) => [text.toUpperCase()],
    'write its three letters, such as USD or EUR',
  ),
  oxide: meant(
    'which is not a formula',
    none,
    'write the oxide as its formula, such as SiO2, or LOI',
  ),
};

/** `1.45` of `145` and of `1450`: the grams of 100 mL or of a litre. */
function inThousandths(digits: string): string {
  const each = Number(digits);
  return String(each >= 1000 ? each / 1000 : each / 100);
}

function inKilowatts(text: string): string | undefined {
  const [, watts] = /^(\d+)\s*w(?:atts?)?$/i.exec(text) ?? [];
  return watts === undefined ? undefined : `${String(Number(watts) / 1000)} kW`;
}

function none(): readonly [] {
  return [];
}
