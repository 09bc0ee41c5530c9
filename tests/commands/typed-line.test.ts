import { describe, expect, it } from 'vitest';
import type { CommandSpec, OptionSpec } from '../../src/commands/spec.ts';
import { typedLine, type TypedLine } from '../../src/commands/completing/typed-line.ts';

const SIZE: OptionSpec = { flags: '--size <cm>', about: 'how large' };
const LOUD: OptionSpec = { flags: '--loud', about: 'aloud' };
const DEEP: OptionSpec = { flags: '--deep <cm>', about: 'only of a bowl' };

const COMMAND: CommandSpec = {
  name: 'throw',
  about: 'throw a pot',
  examples: [],
  options: [SIZE, LOUD],
};

function line(...typed: string[]): TypedLine {
  return typedLine(typed, {
    commands: [COMMAND],
    optionsOf: (command, { words }) =>
      command ? [...command.options, ...(words[0] === 'bowl' ? [DEEP] : [])] : [LOUD],
  });
}

describe('a line that is being typed', () => {
  it('may be empty', () => {
    expect(line()).toMatchObject({ command: undefined, words: [], current: '', joined: '' });
    expect(line('')).toMatchObject({ command: undefined, options: [LOUD], waiting: undefined });
  });

  it('has a command once its word is behind the cursor', () => {
    expect(line('throw')).toMatchObject({ command: undefined, current: 'throw' });
    expect(line('throw', '')).toMatchObject({ command: COMMAND, words: [], current: '' });
    expect(line('--loud', 'throw', 'a', 'b')).toMatchObject({ words: ['a'], current: 'b' });
  });

  it('passes over words before the command that are none', () => {
    expect(line('thorw', 'x', '')).toMatchObject({ command: undefined, words: [] });
  });

  it('gives an option the word behind it', () => {
    const { given, words, waiting } = line('throw', '--size', '12', 'bowl', '');
    expect(given.get('--size')).toBe('12');
    expect({ words, waiting }).toEqual({ words: ['bowl'], waiting: undefined });
  });

  it('gives it that word even where it begins with a hyphen or is a command', () => {
    expect(line('throw', '--size', '-3', '').given.get('--size')).toBe('-3');
    expect(line('throw', '--size', 'throw', '').words).toEqual([]);
  });

  it('gives an option without a value none', () => {
    expect(line('throw', '--loud', 'bowl', '')).toMatchObject({ words: ['bowl'] });
  });

  it('takes a value that is joined by =, with all that follows', () => {
    const { given, words } = line('throw', '--size=1=2', 'bowl', '');
    expect(given.get('--size')).toBe('1=2');
    expect(words).toEqual(['bowl']);
  });

  it('waits for a value at the cursor', () => {
    expect(line('throw', '--size', '1')).toMatchObject({ waiting: SIZE, current: '1', joined: '' });
    expect(line('throw', '--size=1')).toMatchObject({
      waiting: SIZE,
      current: '1',
      joined: '--size=',
    });
  });

  it('waits for none that the option does not take, or of an option that is not there', () => {
    expect(line('throw', '--loud=1')).toMatchObject({ waiting: undefined, current: '--loud=1' });
    expect(line('throw', '--wide=1')).toMatchObject({ waiting: undefined, current: '--wide=1' });
  });

  it('knows options that depend on a word before them', () => {
    expect(line('throw', 'bowl', '--deep', '').waiting).toBe(DEEP);
    expect(line('throw', 'cup', '--deep', '').waiting).toBeUndefined();
  });
});
