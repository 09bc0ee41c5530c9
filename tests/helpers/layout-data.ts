/** Random records for files in every layout: texts that YAML could misread, lists, nested mappings. */
import type { RandomSource } from './random-source.js';

/** A file's content: texts, lists and mappings in order. */
export type Tree = string | Tree[] | Map<string, Tree>;

const WORDS = ['mug', 'bowl', 'Hill Street school', '12.5 kg', '40%', '2026-03-08', '06:30', '5½'];
const ODD_WORDS = ['04', '12E5', '1.10', 'true', 'null', '~', '0x1F', '38.00', '7', 'yes'];
const AWKWARD = [
  "it's",
  'say "hi"',
  'a: b',
  'a #b',
  '# not',
  '- x',
  'a, b',
  '[x]',
  '{y',
  ' lead',
  'trail ',
  'end:',
  'back\\slash',
  'a\tb',
  '@x',
  'lot 😀 é',
  '',
];
const LONG = ['two\nlines', 'one\n\n  three\nfour\n', 'kept\n\n', '  in\nout', 'x \ny', 'line\n'];

/** Up to `size` records (at most five), by id. */
export function randomRecords(random: RandomSource, size: number): Map<string, Tree> {
  const ids = random.shuffle(['s260308kt', 'cone6-tile', 'a', 'Mug-2', 'x1']).slice(0, size);
  const count = random.int(0, ids.length);
  return new Map(ids.slice(0, count).map((id) => [id, randomRecord(random)]));
}

/** One record with some fields of every shape. */
export function randomRecord(random: RandomSource): Tree {
  const fields: [string, () => Tree][] = [
    ['date', () => '2026-03-08'],
    ['channel', () => randomText(random)],
    ['note', () => randomText(random)],
    ['price', () => random.pick(['38.00', '7', '12'])],
    ['lines', () => randomList(random, () => randomLine(random))],
    ['care', () => randomList(random, () => randomText(random))],
    ['meter', () => new Map([['before', '10482.5'] as const, ['after', '10553.9'] as const])],
    ['cone', () => random.pick(['04', '6', '5½'])],
    ['empty', () => random.pick<Tree>([new Map(), [], ''])],
  ];
  const some = random.shuffle(fields).slice(0, random.int(1, 5));
  return new Map(some.map(([key, value]) => [key, value()]));
}

function randomList(random: RandomSource, item: () => Tree): Tree[] {
  return Array.from({ length: random.int(1, 3) }, item);
}

function randomLine(random: RandomSource): Tree {
  if (random.chance(0.1)) return randomText(random);
  const line = new Map<string, Tree>([['product', randomText(random)]]);
  if (random.chance(0.7)) line.set('count', random.pick(['1', '24']));
  if (random.chance(0.3)) line.set('why', new Map([['cracked', '1']]));
  if (random.chance(0.2)) line.set('note', randomText(random));
  return line;
}

/** A text: plain words, or one that needs quotes, escapes or several lines. */
export function randomText(random: RandomSource): string {
  return random.pick(random.pick([WORDS, WORDS, ODD_WORDS, AWKWARD, LONG]));
}
