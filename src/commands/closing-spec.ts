/** The options of `add sales --closing`, for its help and for completion. */
import type { OptionSpec } from './spec.ts';

/** Ends a day at a fair. */
export const CLOSING: OptionSpec = {
  flags: '--closing',
  about: 'with sales: end a day at a fair by what came back and the money that is there',
};

/** A day's end as it is typed. */
export const CLOSING_EXAMPLE =
  'saggar add sales --closing --fair k260509bz --date 2026-05-10 --took "24 mug" --back "9 mug" --cash 312.50 --float 50 --card 260';

/** What it takes beside the options of every `add`. */
export const CLOSING_OPTIONS: readonly OptionSpec[] = [
  {
    flags: '--fair <id>',
    about: 'the fair; not needed while one alone is held that day',
    offers: ['fairs'],
  },
  { flags: '--date <day>', about: 'the day of the fair that ends (today, or its only day)' },
  {
    flags: '--took <line>',
    about: 'what was on the stall that morning, when not what the fair says it takes: "24 mug"',
    repeats: true,
    offers: 'sentence',
  },
  {
    flags: '--back <line>',
    about: 'what came back: "9 mug sea-green", or none',
    repeats: true,
    offers: 'sentence',
  },
  { flags: '--cash <amount>', about: 'the cash in the box now' },
  { flags: '--float <amount>', about: 'the cash that was in the box in the morning (0)' },
  { flags: '--card <amount>', about: "the card reader's total of the day" },
  {
    flags: '--sold <line>',
    about: 'gone pieces to write as one sale: "10 mug", "2 mug at 25", or all that are left',
    repeats: true,
    offers: 'sentence',
  },
  {
    flags: '--missing <line>',
    about: 'gone pieces to write as missing: "2 mug", or all that are left',
    repeats: true,
    offers: 'sentence',
  },
  { flags: '--discount <discount>', about: 'money or a percentage off the sale' },
  { flags: '--fee <amount>', about: "what the reader's statement says it took of the sale" },
  { flags: '--note <text>', about: 'a note of the sale' },
];
