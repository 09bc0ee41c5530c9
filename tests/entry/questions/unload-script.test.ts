import { describe, expect, it } from 'vitest';
import { lexiconOf } from '../../../src/entry/lexicon.ts';
import { begin, press, type QuestionState } from '../../../src/entry/questions/asking.ts';
import {
  outcomeSentences,
  unloadScript,
  usualReadings,
  type KilnLoad,
} from '../../../src/entry/questions/unload-script.ts';
import { SMALL_STUDIO, openFolder, small } from '../../helpers/small-studio.ts';

const FILE = 'firings/f260430ef.yaml';
const READINGS = [
  { option: 'hours', field: 'hours' },
  { option: 'meterBefore', field: 'meter.before' },
  { option: 'meterAfter', field: 'meter.after' },
];

async function kilnLoad(text = SMALL_STUDIO[FILE] ?? ''): Promise<KilnLoad> {
  const opened = await openFolder(small({ [FILE]: text }));
  const lexicon = lexiconOf(opened.reading.files);
  const firing = lexicon.find('f260430ef');
  if (!firing) throw new Error('the firing is gone');
  return { opened, lexicon, firing, readings: usualReadings(firing, lexicon, READINGS) };
}

function reply(asking: QuestionState, ...lines: readonly string[]): QuestionState {
  return lines.reduce((state, text) => {
    const typed = press({ ...state, line: { text: '', at: 0 } }, { name: 'text', text });
    return press(typed, { name: 'enter', text: '' });
  }, asking);
}

const prompts = ({ question }: QuestionState): string[] =>
  question ? [question.prompt, question.fallback] : ['done'];

describe('the questions about a kiln that is unloaded', () => {
  it('offer a whole lot as firsts, and work out the lost', async () => {
    const asking = begin(unloadScript(await kilnLoad()));
    expect(prompts(asking)).toEqual(['6 bowl p260302cd: firsts', '6']);
    expect(prompts(reply(asking, ''))).toEqual(['5 evening-class: firsts', '5']);
    const lost = reply(asking, '3', '1');
    expect(prompts(lost)).toEqual(['6 bowl p260302cd: lost', '2']);
    expect(reply(lost, '1').message).toBe(
      '6 pieces went in, but 3 first + 1 second + 1 lost = 5 came out; count again: first, second and lost together are the pieces that went in',
    );
    expect(reply(asking, '7').message).toContain('7 first + 0 second + 0 lost = 7 came out');
    expect(reply(asking, 'all').message).toContain('whole number');
  });

  it('ask for causes until they add up', async () => {
    const kiln = await kilnLoad();
    const causes = reply(begin(unloadScript(kiln)), '3', '1', '');
    expect(prompts(causes)[0]).toBe('6 bowl p260302cd: causes, 3 left to explain');
    expect(causes.question?.offers('cra')[0]?.line).toBe('3 cracked');
    expect(reply(causes, '4 cracked').message).toContain('the causes add up to 4');
    expect(reply(causes, '1 craked').message).toContain('cracked');
    const one = reply(causes, '1 cracked');
    expect(prompts(one)[0]).toContain('2 left');
    expect(reply(one, '1 cracked').message).toContain('given twice');
    const done = reply(one, 'warped', '', '');
    expect(prompts(done)).toEqual(['done']);
    expect(outcomeSentences(kiln, done.answers)).toEqual([
      'p260302cd 3 first 1 second 2 lost 1 cracked 2 warped',
      'evening-class 5 first',
      '3 first',
    ]);
  });

  it('ask for the readings that the last such firing has and this one lacks', async () => {
    expect((await kilnLoad()).readings).toEqual([]);
    const unmetered = (SMALL_STUDIO[FILE] ?? '').replace('  energy: 40 kWh\n', '');
    const kiln = await kilnLoad(unmetered);
    expect(kiln.readings).toEqual([{ option: 'meterAfter', field: 'meter.after' }]);
    const atMeter = reply(begin(unloadScript(kiln)), '', '', '');
    expect(prompts(atMeter)[0]).toContain('after');
    expect(prompts(reply(atMeter, '255'))).toEqual(['done']);
    expect(reply(atMeter, '150').message).toContain('150');
  });
});
