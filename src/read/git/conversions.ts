/** What git does to a file's content on the way into the repository, as attributes and settings say. */
import { join } from 'node:path';
import type { Repository } from './repository.ts';
import { AT_ONCE, askGit, type GitPlace } from './run.ts';

/** What happens to a file's content. */
export interface Conversion {
  /** What else changes it, in words: `the filter "crypt"`. */
  readonly through?: string;
  /** Whether it is a text, whose line ends become line feeds, or one only if it looks like one. */
  readonly lineEnds?: 'text' | 'guessed';
}

const ASKED = ['text', 'crlf', 'eol', 'filter', 'working-tree-encoding', 'ident'];

type Attributes = ReadonlyMap<string, string>;

/** What happens to files of the studio; those that git can't be asked of are left out. */
export function conversionsOf(
  repository: Repository,
  files: readonly string[],
): ReadonlyMap<string, Conversion> {
  if (files.length === 0) return new Map();
  const { prefix } = repository;
  const input = files.map((file) => `${prefix}${file}\0`).join('');
  const words = ['check-attr', '-z', '--stdin', ...ASKED];
  const printed = askGit(withoutIndex(repository), words, { input, within: AT_ONCE }) ?? '';
  const attributes = attributesIn(printed.split('\0'), prefix.length);
  const settings = settingsOf(repository);
  return new Map([...attributes].map(([file, each]) => [file, conversionBy(each, settings)]));
}

/** Git without its index, for to read a shared one it touches a file. */
export function withoutIndex({
  gitDir,
  ...place
}: GitPlace & Pick<Repository, 'gitDir'>): GitPlace {
  const environment = { ...place.environment, GIT_INDEX_FILE: join(gitDir, 'no-index-for-saggar') };
  return { ...place, environment };
}

/** Path, attribute and value follow each other. */
function attributesIn(words: readonly string[], skipped: number): ReadonlyMap<string, Attributes> {
  const found = new Map<string, Map<string, string>>();
  for (let at = 0; at + 2 < words.length; at += 3) {
    const [path = '', name = '', value = ''] = words.slice(at, at + 3);
    const file = path.slice(skipped);
    found.set(file, (found.get(file) ?? new Map<string, string>()).set(name, value));
  }
  return found;
}

/** What the settings say beside the attributes. */
interface Settings {
  /** Filters that have something to run. */
  readonly filters: ReadonlySet<string>;
  readonly guessesText: boolean;
}

function settingsOf(repository: Repository): Settings {
  const words = ['config', '--null', '--get-regexp', '^(filter\\..*|core\\.autocrlf)$'];
  const printed = askGit(repository, words, { within: AT_ONCE }) ?? '';
  const pairs = printed.split('\0').map((pair) => /^([^\n]*)\n?(.*)$/s.exec(pair) ?? []);
  const last = new Map(pairs.map(([, key = '', value = '']) => [key, value]));
  const used = [...last].flatMap(([key, value]) => {
    const name = /^filter\.(.*)\.(?:clean|process)$/s.exec(key)?.[1];
    return name === undefined || value === '' ? [] : [name];
  });
  const guesses = last.get('core.autocrlf') ?? 'false';
  return { filters: new Set(used), guessesText: !/^(?:false|no|off|0|)$/i.test(guesses) };
}

function conversionBy(attributes: Attributes, { filters, guessesText }: Settings): Conversion {
  const of = (name: string): string => attributes.get(name) ?? UNSPECIFIED;
  const filter = of('filter');
  if (filters.has(filter)) return { through: `the filter "${filter}"` };
  const encoding = of('working-tree-encoding');
  if (!/^(?:unspecified|set|unset)$/.test(encoding))
    return { through: `the encoding "${encoding}"` };
  if (of('ident') === SET) return { through: 'the attribute "ident"' };
  const text = of('text') === UNSPECIFIED ? of('crlf') : of('text');
  if (text === UNSET) return {};
  if (text === 'auto') return { lineEnds: 'guessed' };
  if (text === SET || text === 'input' || /^(?:lf|crlf)$/.test(of('eol')))
    return { lineEnds: 'text' };
  return guessesText ? { lineEnds: 'guessed' } : {};
}

const [UNSPECIFIED, SET, UNSET] = ['unspecified', 'set', 'unset'] as const;

const [CARRIAGE_RETURN, LINE_FEED] = [0x0d, 0x0a] as const;

/** A text as git takes it in. A guess is no good where a carriage return stands alone, or a zero byte. */
export function withGitLineEnds(
  bytes: Buffer,
  lineEnds: NonNullable<Conversion['lineEnds']>,
): Buffer {
  const isBare = (at: number): boolean => bytes[at + 1] !== LINE_FEED;
  if (lineEnds === 'guessed' && (bytes.includes(0) || returnsIn(bytes).some(isBare))) return bytes;
  return bytes.filter((byte, at) => byte !== CARRIAGE_RETURN || isBare(at)) as Buffer;
}

function returnsIn(bytes: Buffer): number[] {
  const found: number[] = [];
  for (
    let at = bytes.indexOf(CARRIAGE_RETURN);
    at >= 0;
    at = bytes.indexOf(CARRIAGE_RETURN, at + 1)
  )
    found.push(at);
  return found;
}
