import { describe, expect, it } from 'vitest';
import { COMMANDS, COMPLETE_WORDS, FIRST_EXAMPLES } from '../../src/commands/catalogue.ts';
import { allFlags, flagOf } from '../../src/commands/spec.ts';
import { runSaggar } from '../helpers/program.ts';

const general = await runSaggar(['--help']);

/** Help with its parted command lines in one piece. */
function joined(help: string): string {
  return help.replaceAll(/ \\\n +/g, ' ');
}

/** The rows of a part of help: a word, two spaces or more, and what is said of it. */
function rows(help: string, title: string): string[] {
  const [, part = ''] = new RegExp(`^${title}:\n((?:  .*\n)+)`, 'm').exec(help) ?? [];
  return [...part.matchAll(/^ {2}(\S.*?)(?: {2}.*)?$/gm)].map(([, word = '']) => word);
}

describe('help on everything', () => {
  it('leads with examples', () => {
    expect(general.out).toMatch(/^Examples:\n {2}saggar /);
    expect(rows(joined(general.out), 'Examples')).toEqual(FIRST_EXAMPLES);
  });

  it('goes to standard output when it is asked for, with status 0', () => {
    expect(general).toMatchObject({ status: 0, err: '' });
  });

  it('goes to standard error when no command was given, with status 2', async () => {
    expect(await runSaggar([])).toEqual({ status: 2, out: '', err: general.out });
  });

  it('names every command once, in the catalogue’s order, and no hidden one', () => {
    expect(rows(general.out, 'Commands')).toEqual(COMMANDS.map(({ name }) => name));
    expect(general.out).not.toContain(COMPLETE_WORDS.name);
  });

  it('fits 80 columns', () => {
    expect(general.out.split('\n').filter((line) => line.length > 80)).toEqual([]);
  });
});

describe.each(COMMANDS.filter(({ takesFields }) => takesFields !== true))(
  'help on $name',
  (spec) => {
    it('leads with its examples, then has all its options, in 80 columns', async () => {
      const { status, out, err } = await runSaggar([spec.name, '--help']);
      expect({ status, err }).toEqual({ status: 0, err: '' });
      expect(out).toMatch(/^Examples:\n {2}saggar /);
      expect(joined(out)).toContain(spec.examples.map((example) => `  ${example}\n`).join(''));
      const flags = [...spec.options.map(allFlags), '-h, --help'];
      expect(rows(out, 'Options').filter((row) => row.startsWith('-'))).toEqual(flags);
      expect(out.split('\n').filter((line) => line.length > 80)).toEqual([]);
    });
  },
);

/** Commands about a list from outside, which is taken in --by a map and taken out --from the book. */
const OF_LISTS = ['take-in', 'match', 'remove'];

describe('the options of commands', () => {
  it('have one meaning: an option of one name is typed in one way', () => {
    const forms = new Map<string, Set<string>>();
    const ofBooks = COMMANDS.filter(({ name }) => !OF_LISTS.includes(name));
    for (const option of ofBooks.flatMap(({ options }) => options)) {
      const known = forms.get(flagOf(option)) ?? new Set();
      forms.set(flagOf(option), known.add(option.flags));
    }
    expect([...forms.values()].filter((each) => each.size > 1)).toEqual([]);
  });

  it('take no part of a word of another option', () => {
    for (const { options } of COMMANDS) {
      const flags = options.map(flagOf);
      expect(new Set(flags).size).toBe(flags.length);
    }
  });
});
