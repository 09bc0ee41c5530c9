/** Files that somebody or something has spoilt: characters and lines lost, doubled, moved or replaced. */
import { randomSource, type RandomSource } from '../../helpers/random-source.js';

type Files = Readonly<Record<string, string>>;

/** What no key and no value is made of, and what YAML takes for something else. */
const ODD = [
  ...'0 1 9 - : # { } [ ] , & * ! | > \' " % @ ` ~ ? . e E / \\'.split(' '),
  ...['\t', '\r', '\n', '\n\n', '  ', '\0', '\u2028', '\uFEFF', '\u202E', '½', '😀', '\uD800'],
  ...['- ', ': ', ' #', '---\n', '...\n', '<<: ', '&a ', '*a ', '!!str ', '? '],
  ...['null', 'true', 'no', '0044', '1e9', '.nan', '-.inf', '-1', '0', '999999999999', '0.5'],
  ...['2025-13-45', '2026-02-29', '2099-01-01', '__proto__', 'constructor', 'g', 'lb', ' kg', '%'],
];

const HUGE_OR_ODD = ['0', '1', '7', '00', '12345678', '999999999', '999999999999'];

/** The files with some of them changed in one to six places; always the same for the same seed. */
export function mutate(files: Files, seed: number): Record<string, string> {
  const random = randomSource(seed, 'mutate');
  const mutated: Record<string, string> = { ...files };
  const paths = Object.keys(files);
  const times = random.int(1, 6);
  for (let turn = 0; turn < times; turn += 1) {
    const path = random.chance(0.05) ? 'studio.yaml' : random.pick(paths);
    const change = random.pick(random.chance(0.5) ? OF_LINES : OF_CHARACTERS);
    const other = mutated[random.pick(paths)] ?? '';
    mutated[path] = change(mutated[path] ?? '', random, other);
  }
  return mutated;
}

type Change = (text: string, random: RandomSource, other: string) => string;

const OF_CHARACTERS: readonly Change[] = [
  (text, random) => splice(text, random, () => ''),
  (text, random) => splice(text, random, (cut) => cut + cut),
  (text, random) => splice(text, random, () => random.pick(ODD)),
  (text, random) => splice(text, random, (cut) => cut + random.pick(ODD)),
  (text, random) => splice(text, random, (cut) => `"${cut}"`),
  (text, random) => text.replace(/\d+/g, (digits) => swapped(digits, random)),
  (text, random) => text.slice(0, random.int(0, text.length)),
];

const OF_LINES: readonly Change[] = [
  (text, random) => onLines(text, random, () => []),
  (text, random) => onLines(text, random, (line) => [line, line]),
  (text, random, other) => onLines(text, random, () => [random.pick(other.split('\n'))]),
  (text, random, other) => onLines(text, random, (line) => [line, random.pick(other.split('\n'))]),
  (text, random) => onLines(text, random, (line) => [` ${line}`]),
  (text, random) => onLines(text, random, (line) => [line.trimStart()]),
  (text, random) =>
    onLines(text, random, (line) => [line.replace(/: .*$/, `: ${random.pick(ODD)}`)]),
  (text, random) => random.shuffle(text.split('\n')).join('\n'),
];

function splice(text: string, random: RandomSource, put: (cut: string) => string): string {
  const start = random.int(0, text.length);
  const end = start + random.pick([0, 1, 1, 2, 5, 30]);
  return text.slice(0, start) + put(text.slice(start, end)) + text.slice(end);
}

function swapped(digits: string, random: RandomSource): string {
  return random.chance(0.9) ? digits : random.pick(HUGE_OR_ODD.concat(`${digits}9`));
}

function onLines(text: string, random: RandomSource, put: (line: string) => string[]): string {
  const lines = text.split('\n');
  const at = random.int(0, lines.length - 1);
  return lines.flatMap((line, index) => (index === at ? put(line) : [line])).join('\n');
}
