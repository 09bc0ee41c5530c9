/** What the manual says beside the commands; the README's cautions are these. */

/** A word and what there is to say of it. */
export type Entry = readonly [word: string, about: string];

/** What the program is for, in paragraphs. */
export const DESCRIPTION: readonly string[] = [
  'A studio is a folder of YAML files with studio.yaml at its root. saggar checks them, and says what is left in the bags, what a firing cost, what was lost and what each product earned. It works offline and sends nothing anywhere.',
  'The studio is the nearest folder upwards that has studio.yaml. Data goes to standard output, problems and questions to standard error.',
];

/** Files that it reads and writes. */
export const FILES: readonly Entry[] = [
  ['studio.yaml', 'the settings; the folder that it is in is the studio'],
  ['KIND.yaml, KIND/', 'the records of a kind: one file, or any .yaml files below a folder'],
  ['.saggar-lock', 'is there while a command writes; one that a crash left is cleared by the next'],
  [
    '~/.cache/saggar/',
    'what is remembered of each studio to be quick (on macOS in ~/Library/Caches, on Windows in %LOCALAPPDATA%); saggar forget deletes it',
  ],
  [
    '~/.local/state/saggar/',
    'what is being written to several files at once, to undo it after a crash (on macOS in ~/Library/Application Support, on Windows in %LOCALAPPDATA%)',
  ],
];

/** Variables of the environment that it heeds. */
export const ENVIRONMENT: readonly Entry[] = [
  ['NO_COLOR', 'when set, output is not coloured, unless --colour is given'],
  [
    'SAGGAR_MEMORY',
    'none: remember nothing between runs; or the full path of the folder to remember it in',
  ],
  ['XDG_CACHE_HOME', 'the folder for what is remembered, where it is not ~/.cache'],
  ['XDG_STATE_HOME', 'the folder for what is being written, where it is not ~/.local/state'],
  ['FORCE_COLOR', 'when set, output is coloured though it is not for a terminal; 0 means never'],
];

/** What the exit status means. */
export const STATUSES: readonly Entry[] = [
  ['0', 'nothing wrong'],
  ['1', 'errors were found in the book, or nothing was written'],
  [
    '2',
    'the command could not run: it was not understood, or there is no studio to read; or what it had to show could not be written',
  ],
  ['130', 'interrupted'],
];

/** What to take care of, in paragraphs. */
export const CAUTIONS: readonly string[] = [
  'saggar keeps records; it vouches for nothing. It never says that ware is safe: only which test is on record, or that none is.',
  'Silica dust harms the lungs: weigh powders with a fitted respirator, clean wet, never sweep dry, and keep food out of the studio. Follow the safety data sheets of your materials, vent the kiln, and leave work on it, with the power off, to someone competent.',
  'Local electrical, fire, gas and food-contact codes rule. Figures for taxes are a summary for whoever prepares them; local rules and licensed advice come first.',
];
