import { describe, expect, it } from 'vitest';
import { textsInSchema, textsInSource, userTexts, type UserText } from './helpers/user-texts.ts';

/** Words that no text for users has any more, each with what to write instead. */
const NOT_AGAIN: readonly (readonly [word: RegExp, instead: string])[] = [
  [/\bbehind\b/i, 'after, or what it is from'],
  [/\bnoughts?\b/i, 'zero'],
  [/\b(?:mend(?:s|ed|ing)?)\b/i, 'fix, correct'],
  [/(?<!src\/)\breckon(?:s|ed|ing|ings)?\b(?!\/)/i, 'work out, count'],
  [/(?<!\[:)\bblanks?\b(?! line)/i, 'space'],
  [
    /\b(?:put|puts|putting|write|writes|writing|written|wrote)(?:\s+[\w'-]+){0,4}\s+down\b/i,
    'record',
  ],
  [/\bstand(?:s|ing)?\b(?! (?:at|on) (?:a|the) fair)/i, 'is'],
  [/(?<!\bthere )\b(?:is|are) no (?!longer\b|more\b)/i, 'is not a'],
  [/\bplain[\s-]+text[\s-]+files?\b|\bin\s+plain\s+text\b/i, 'a studio book'],
  [/\b(?:given|gave|gives|give) up\b/i, 'cancelled'],
  [/\bgive(?:n)? again and again\b/i, 'repeatable'],
  [/^Comes through/, 'yield'],
  [/\bspeaks? against\b/i, 'no concerns'],
  [/\bto look at before\b/i, 'check before sending'],
  [/\bprograms? with windows\b/i, 'graphical program'],
  [/\bof it is said\b|\bsaid of it\b/i, 'said about'],
  [
    /^(?:Of net|An hour|A piece|Used a day|There|Kept|Back)$|\bloss uplift\b/i,
    'per hour, margin % …',
  ],
];

function wrongWords({ at, text }: UserText): readonly string[] {
  return NOT_AGAIN.flatMap(([word, instead]) => {
    const found = word.exec(text.replaceAll(/\s+/g, ' '));
    return found ? [`${at}: "${found[0]}", say: ${instead}`] : [];
  });
}

describe('the words of texts for users', () => {
  it('are those of one potter to another', async () => {
    (await import('node:fs')).writeFileSync(
      '/tmp/wt/F-texts.json',
      JSON.stringify(userTexts().flatMap(wrongWords), null, 1),
    );
    expect(userTexts().flatMap(wrongWords)).toEqual([]);
  });

  it.each([
    ["say('indent with two blanks');", 'blanks'],
    ['say(`${id} stands in ${file}`);', 'stands'],
    ["say(`it is no currency's code`);", 'is no '],
    ["say('Nothing was written. Mend this');", 'Mend'],
    ["say('write a use down here');", 'write a use down'],
    ["const head = { title: 'An hour' };", 'An hour'],
  ])('are not those of the planted %s', (source, word) => {
    expect(textsInSource('planted.ts', source).flatMap(wrongWords)).toEqual([
      expect.stringContaining(`planted.ts:1: "${word}"`),
    ]);
  });

  it('are looked for in schemas too', () => {
    const schema =
      '{ "properties": { "a": { "description": "How many it is reckoned to last." } } }';
    expect(textsInSchema('planted.json', schema).flatMap(wrongWords)).toHaveLength(1);
  });

  it('are not taken for others', () => {
    const texts = [
      'there is no channel',
      'it is no longer there',
      'a blank line',
      'see src/reckon/README.md',
      'understand',
    ];
    expect(texts.flatMap((text) => wrongWords({ at: '', text }))).toEqual([]);
  });
});
