import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defuse, escapeMarkdown, visible, visibleJson } from '../../src/render/escape.ts';
import { anyText, UNSAFE } from './arbitrary.ts';
import { holds } from '../helpers/law.ts';

describe('visible', () => {
  it.each([
    ['escape sequence', '\u001b[31mred', '\\u{1B}[31mred'],
    ['C1 control', 'a\u009bb', 'a\\u{9B}b'],
    ['delete', 'a\u007f', 'a\\u{7F}'],
    ['tab and line ends', 'a\tb\r\nc', 'a\\u{9}b\\u{D}\\u{A}c'],
    ['bidi override', 'a\u202eb\u202c', 'a\\u{202E}b\\u{202C}'],
    ['bidi isolate', '\u2066a\u2069', '\\u{2066}a\\u{2069}'],
    ['direction marks', '\u200e\u200f\u061c', '\\u{200E}\\u{200F}\\u{61C}'],
    ['zero width', 'a\u200bb\u200cc\u2060d\ufeff', 'a\\u{200B}b\\u{200C}c\\u{2060}d\\u{FEFF}'],
    ['soft hyphen and filler', 'a\u00adb\u3164', 'a\\u{AD}b\\u{3164}'],
    ['tag and variation selector', '\u{e0041}❤\ufe0f', '\\u{E0041}❤\\u{FE0F}'],
    ['line separators', 'a\u2028b\u2029c', 'a\\u{2028}b\\u{2029}c'],
    ['lone surrogates', '\ud83dx\ude00', '\\u{D83D}x\\u{DE00}'],
    ['joined emoji', '👩\u200d🎨', '👩\\u{200D}🎨'],
  ])('shows %s', (_, text, shown) => {
    expect(visible(text)).toBe(shown);
  });

  it('leaves ordinary text of any language alone', () => {
    const text = 'Tenmoku “½ cone” 釉薬 كوب Тарелка e\u0301 🏺 10 °C\u00a0–';
    expect(visible(text)).toBe(text);
  });

  it('leaves nothing that acts or hides, whatever comes in', () => {
    holds(fc.property(anyText, (text) => !UNSAFE.test(visible(text))));
  });
});

describe('visibleJson', () => {
  it('writes hidden signs as escapes that mean the same text', () => {
    holds(
      fc.property(anyText, (text) => {
        const json = visibleJson(JSON.stringify({ text }, null, 2));
        expect(JSON.parse(json)).toEqual({ text });
        expect(json.replaceAll('\n', '')).not.toMatch(UNSAFE);
      }),
    );
  });

  it('escapes what JSON itself lets pass', () => {
    expect(visibleJson('"\u009b\u202e\u{e0041}"')).toBe('"\\u009b\\u202e\\udb40\\udc41"');
  });
});

describe('escapeMarkdown', () => {
  it.each([
    ['pipes and backslashes', 'a|b\\c', 'a\\|b\\\\c'],
    ['code, emphasis, strike', '`a` *b* _c_ ~d~', '\\`a\\` \\*b\\* \\_c\\_ \\~d\\~'],
    ['links and images', '![a](b) [c]', '\\!\\[a\\](b) \\[c\\]'],
    ['html and entities', '<b> &amp;', '&lt;b&gt; &amp;amp;'],
    ['mentions', 'ask @someone', 'ask @&#8203;someone'],
    ['addresses', 'me@kiln.example', 'me@&#8203;kiln.example'],
    ['issue links', 'mug #12, GH-7', 'mug \\#&#8203;12, GH-&#8203;7'],
    ['web addresses', 'https://x.example', 'https:&#8203;//x.example'],
    ['web addresses after a word', '_www.x.example', '\\_www&#8203;.x.example'],
    ['headings', '# big', '\\# big'],
    ['lists', '- a', '\\- a'],
    ['other lists', '+ a', '\\+ a'],
    ['numbered lists', '12. a', '12\\. a'],
    ['numbered lists in brackets', '1) a', '1\\) a'],
    ['indented code', '     a', 'a'],
    ['controls', 'a\u001bb', 'a\\\\u{1B}b'],
    ['formulas', '$a$', '\\$a\\$'],
  ])('neutralises %s', (_, text, escaped) => {
    expect(escapeMarkdown(text)).toBe(escaped);
  });

  it('leaves plain words and figures alone', () => {
    const text = 'Tumbler, 12.5 kg (blue) — 40% off; see page 3.';
    expect(escapeMarkdown(text)).toBe(text);
  });
});

describe('defuse', () => {
  it.each([
    '=1+1',
    '+44 1',
    '-cmd',
    '@sum',
    '  =1+1',
    '\uff1d1+1',
    '\uff0b1',
    '\uff0d1',
    '\uff20a',
    '-5+2',
    '-1.2.3',
  ])('puts an apostrophe before %s', (text) => {
    expect(defuse(text)).toBe(`'${text}`);
  });

  it.each(['-5', '-12.50', 'a=b', '2026-03-08', '', 'mug'])('leaves %s alone', (text) => {
    expect(defuse(text)).toBe(text);
  });

  it('shows a leading tab or line end, so that no formula hides behind it', () => {
    expect(defuse('\t=1+1')).toBe('\\u{9}=1+1');
    expect(defuse('\r=1+1')).toBe('\\u{D}=1+1');
  });
});
