/** What tells one problem from another in a log does not change when lines move. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { holds } from '../helpers/law.ts';
import { fixtureRules, fixtureTexts } from '../helpers/fixtures.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

interface Log {
  readonly runs: readonly [
    {
      readonly results: readonly {
        readonly ruleId: string;
        readonly locations: readonly [
          { readonly physicalLocation: { readonly region?: { readonly startLine: number } } },
        ];
        readonly partialFingerprints: Readonly<Record<string, string>>;
      }[];
    },
  ];
}

interface Seen {
  readonly prints: readonly string[];
  readonly lines: number;
}

async function seenIn(texts: ReadonlyMap<string, string>): Promise<Seen> {
  const folder = tempStudio(Object.fromEntries(texts));
  const { out } = await runCommand('check', { as: 'sarif' }, { folder });
  const { results } = (JSON.parse(out) as Log).runs[0];
  const lines = results.map(
    ({ locations }) => locations[0].physicalLocation.region?.startLine ?? 0,
  );
  return {
    prints: results.map(({ ruleId, partialFingerprints }) =>
      [ruleId, ...Object.values(partialFingerprints)].join(' '),
    ),
    lines: lines.reduce((sum, line) => sum + line, 0),
  };
}

/** Lines that say nothing, each as it stands at the margin. */
const idleLines = fc
  .array(fc.constantFrom('', '# a remark', '  ', '  # another: one', '#'), {
    minLength: 1,
    maxLength: 4,
  })
  .map((lines) => lines.map((line) => `${line}\n`).join(''));

/** The text with idle lines before each record, or before the whole where it can't be cut. */
function loosened(text: string, idle: string): string {
  const isCut = !/^(?:[<=>|]{7}|---|%)/m.test(text);
  return isCut ? text.replaceAll(/^(?=[A-Za-z][\w-]*:)/gm, idle) : idle + text;
}

// The files of the one left out are no text.
const RULES = fixtureRules().filter((rule) => rule !== 'unreadable-file');

it.each(RULES)('%s', async (rule) => {
  const texts = fixtureTexts(rule, 'bad');
  const before = await seenIn(texts);
  expect(before.prints.length).toBeGreaterThan(0);
  expect(new Set(before.prints).size).toBe(before.prints.length);
  await holds(
    fc.asyncProperty(idleLines, async (idle) => {
      const moved = new Map([...texts].map(([file, text]) => [file, loosened(text, idle)]));
      const after = await seenIn(moved);
      expect(after.prints).toEqual(before.prints);
      if (rule !== 'stray-file') expect(after.lines).toBeGreaterThan(before.lines);
    }),
    2,
  );
});
