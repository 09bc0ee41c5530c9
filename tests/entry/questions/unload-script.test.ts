import { describe, expect, it } from 'vitest';
import { lexiconOf } from '../../../src/entry/lexicon.ts';
import { begin, press, type QuestionState } from '../../../src/entry/questions/asking.ts';
import { usualReadings, type KilnLoad } from '../../../src/entry/questions/unload-readings.ts';
import { outcomeSentences, unloadScript } from '../../../src/entry/questions/unload-script.ts';
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

const outcomes = (load: KilnLoad, { answers }: QuestionState): readonly string[] =>
  outcomeSentences(load, answers);

describe('the questions about a kiln that is unloaded', () => {
  it('ask of a whole kiln first whether all came out good', async () => {
    const kiln = await kilnLoad();
    const asking = begin(unloadScript(kiln));
    expect(prompts(asking)).toEqual(['Did all 14 come out good?', 'no']);
    const good = reply(asking, 'y');
    expect(prompts(good)).toEqual(['done']);
    expect(outcomes(kiln, good)).toEqual(['p260302cd 6 first', 'evening-class 5 first', '3 first']);
  });

  it('ask what was lost and why, line by line, and of a bisque for no seconds', async () => {
    const kiln = await kilnLoad();
    const lines = reply(begin(unloadScript(kiln)), '');
    expect(prompts(lines)).toEqual(['6 bowl p260302cd: lost', '0']);
    expect(prompts(reply(lines, ''))).toEqual(['5 evening-class: lost', '0']);
    expect(prompts(reply(lines, '3'))[0]).toBe('6 bowl p260302cd: why 3 lost');
    expect(lines.question?.path).toEqual(['load', 0, 'lost']);
    expect(reply(lines, '3').question?.path).toEqual(['load', 0, 'why']);
    expect(reply(lines, '7').message).toContain('only 6 went in');
    expect(reply(lines, 'all').message).toContain('is not a count');
    const done = reply(lines, '2 cracked 1 warped', 'good', '');
    expect(prompts(done)).toEqual(['done']);
    expect(outcomes(kiln, done)).toEqual([
      'p260302cd 3 first 3 lost 2 cracked 1 warped',
      'evening-class 5 first',
      '3 first',
    ]);
  });

  it('ask for causes until they add up', async () => {
    const kiln = await kilnLoad();
    const causes = reply(begin(unloadScript(kiln)), '', '3');
    expect(causes.question?.offers('cra')[0]?.line).toBe('3 cracked');
    expect(reply(causes, '4 cracked').message).toContain('only 3 are left');
    expect(reply(causes, '1 craked').message).toContain('cracked');
    const one = reply(causes, '1 cracked');
    expect(prompts(one)[0]).toContain('why 2 lost');
    expect(reply(one, '1 cracked').message).toContain('given twice');
    const done = reply(one, 'warped', '', '');
    expect(outcomes(kiln, done)[0]).toBe('p260302cd 3 first 3 lost 1 cracked 2 warped');
    // What has no cause is left without one.
    const open = reply(one, '', '', '');
    expect(outcomes(kiln, open)[0]).toBe('p260302cd 3 first 3 lost 1 cracked');
  });

  it('ask of the last firing for seconds too, whose causes are kept apart', async () => {
    const glaze =
      'f260430ef:\n  date: 2026-04-30\n  kiln: rotunda\n  kind: glaze\n  cone: "6"\n  energy: 40 kWh\n  load:\n    - { lot: p260301ab, in: 4 }\n';
    const kiln = await kilnLoad(glaze);
    const asking = begin(unloadScript(kiln));
    expect(prompts(asking)).toEqual(['4 mug p260301ab: lost', '0']);
    const seconds = reply(asking, '1 stuck');
    expect(prompts(seconds)).toEqual(['4 mug p260301ab: seconds', '0']);
    expect(outcomes(kiln, reply(seconds, '2 ran'))).toEqual([
      'p260301ab 1 first 2 second 1 lost 2 ran lost-to 1 stuck',
    ]);
    expect(reply(seconds, '4').message).toContain('only 4 went in');
    const good = reply(asking, 'good');
    expect(prompts(good)).toEqual(['done']);
    expect(outcomes(kiln, good)).toEqual(['p260301ab 4 first']);
  });

  it('ask for the readings that the last such firing has and this one lacks', async () => {
    expect((await kilnLoad()).readings).toEqual([]);
    const unmetered = (SMALL_STUDIO[FILE] ?? '').replace('  energy: 40 kWh\n', '');
    const kiln = await kilnLoad(unmetered);
    expect(kiln.readings).toEqual([{ option: 'meterAfter', field: 'meter.after' }]);
    const atMeter = reply(begin(unloadScript(kiln)), 'yes');
    expect(prompts(atMeter)[0]).toContain('after');
    expect(prompts(reply(atMeter, '255'))).toEqual(['done']);
    expect(reply(atMeter, '150').message).toContain('150');
  });

  it('ask a new kiln what it drew, in one way, and how long it took', async () => {
    const first = (SMALL_STUDIO[FILE] ?? '')
      .replace('  energy: 40 kWh\n', '')
      .replace('kiln: rotunda', 'kiln: small');
    const kilns = 'small:\n  name: Small\n  fuel: electricity\n  power: 3 kW\n';
    const opened = await openFolder(
      small({ [FILE]: first, 'kilns.yaml': `${SMALL_STUDIO['kilns.yaml'] ?? ''}${kilns}` }),
    );
    const lexicon = lexiconOf(opened.reading.files);
    const firing = lexicon.find('f260430ef');
    if (!firing) throw new Error('the firing is gone');
    const all = [
      ...READINGS,
      { option: 'energy', field: 'energy' },
      { option: 'tended', field: 'tended' },
    ];
    const kiln = { opened, lexicon, firing, readings: usualReadings(firing, lexicon, all) };
    const asking = reply(begin(unloadScript(kiln)), 'yes', '8');
    expect(asking.question?.key).toBe('meterBefore');
    expect(reply(asking, '12').question?.key).toBe('meterAfter');
    expect(reply(asking, '12', '40').question?.key).toBe('tended');
    expect(reply(asking, '').question?.key).toBe('energy');
    expect(reply(asking, '', '31 kWh').question?.key).toBe('tended');
  });
});
