import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Place, Problem } from '../../src/problem.ts';
import { sarif } from '../../src/render/problems/sarif.ts';
import { anyText, UNSAFE } from './arbitrary.ts';
import { holds } from '../helpers/law.ts';

const RULES = [
  { name: 'stray-file', severity: 'warning', about: 'A file is stray.' },
  { name: 'schema', severity: 'error', about: 'A field is wrong {so}.' },
] as const;

function place(more: Partial<Place> = {}): Place {
  return { file: 'sales.yaml', line: 12, column: 9, width: 4, source: '  cone: 04', ...more };
}

function problem(more: Partial<Problem> = {}): Problem {
  return {
    rule: 'schema',
    severity: 'error',
    place: place(),
    record: 's1',
    message: 'the price is wrong',
    hint: 'mend it',
    related: [],
    ...more,
  };
}

interface Region {
  readonly startLine: number;
  readonly startColumn: number;
  readonly endColumn: number;
}
interface Location {
  readonly id?: number;
  readonly message?: { readonly text: string };
  readonly physicalLocation: {
    readonly artifactLocation: { readonly uri: string; readonly uriBaseId: string };
    readonly region?: Region;
  };
  readonly logicalLocations?: readonly { readonly name: string }[];
}
interface Result {
  readonly ruleId: string;
  readonly ruleIndex: number;
  readonly level: string;
  readonly message: { readonly text: string };
  readonly locations: readonly Location[];
  readonly relatedLocations: readonly Location[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
}
interface Run {
  readonly tool: { readonly driver: { readonly rules: readonly Record<string, unknown>[] } };
  readonly columnKind: string;
  readonly results: readonly Result[];
}

function runOf(problems: readonly Problem[], prefix = ''): Run {
  const { runs } = JSON.parse(sarif(problems, { rules: RULES, prefix, version: '1.2.3' })) as {
    runs: [Run];
  };
  return runs[0];
}

function prints(...problems: Problem[]): (string | undefined)[] {
  return runOf(problems).results.map((each) => each.partialFingerprints['ruleRecordMessage/v1']);
}

function uri(file: string, prefix = ''): string | undefined {
  const [result] = runOf([problem({ place: place({ file }) })], prefix).results;
  return result?.locations[0]?.physicalLocation.artifactLocation.uri;
}

describe('a SARIF log', () => {
  it('has the rules by name, with their words and usual levels', () => {
    expect(runOf([]).tool.driver).toMatchObject({ name: 'saggar', version: '1.2.3' });
    expect(runOf([]).tool.driver.rules).toEqual([
      {
        id: 'schema',
        shortDescription: { text: 'A field is wrong {{so}}.' },
        help: { text: 'A field is wrong {{so}}. Each result says how to fix it.' },
        defaultConfiguration: { level: 'error' },
      },
      expect.objectContaining({ id: 'stray-file', defaultConfiguration: { level: 'warning' } }),
    ]);
  });

  it('has a result for each problem, in their order', () => {
    const stray = problem({ rule: 'stray-file', severity: 'warning' });
    const { results } = runOf([stray, problem()]);
    expect(results.map(({ ruleId, ruleIndex, level }) => [ruleId, ruleIndex, level])).toEqual([
      ['stray-file', 1, 'warning'],
      ['schema', 0, 'error'],
    ]);
    expect(results[1]?.message.text).toBe('the price is wrong. Hint: mend it');
    expect(results[1]?.locations[0]?.logicalLocations).toEqual([{ name: 's1' }]);
  });

  it('counts columns as the places do, the last one excluded', () => {
    const run = runOf([problem()]);
    expect(run.columnKind).toBe('utf16CodeUnits');
    expect(run.results[0]?.locations[0]?.physicalLocation).toEqual({
      artifactLocation: { uri: 'sales.yaml', uriBaseId: '%SRCROOT%' },
      region: { startLine: 12, startColumn: 9, endColumn: 13 },
    });
  });

  it('marks no columns in a file as a whole', () => {
    const whole = problem({ place: place({ line: 1, column: 1, width: 1, source: '' }) });
    expect(runOf([whole]).results[0]?.locations[0]?.physicalLocation.region).toBeUndefined();
  });

  it.each([
    ['sales/2026-03.yaml', '', 'sales/2026-03.yaml'],
    ['sales.yaml', 'books/my studio/', 'books/my%20studio/sales.yaml'],
    ['sales/März 50%.yaml', '', 'sales/M%C3%A4rz%2050%25.yaml'],
    ['a:b#c?.yaml', '', 'a%3Ab%23c%3F.yaml'],
    ['sales/\ud800.yaml', '', 'sales/%EF%BF%BD.yaml'],
  ])('names the file %s in %s as %s', (file, prefix, expected) => {
    expect(uri(file, prefix)).toBe(expected);
  });

  it('has related places with numbers and words of their own', () => {
    const at = place({ file: 'kilns.yaml', line: 3 });
    const related = [
      { place: at, message: 'the kiln' },
      { place: at, message: 'the kiln' },
    ];
    const [first, second] = runOf([problem({ related })], 'st/').results[0]?.relatedLocations ?? [];
    expect(first).toMatchObject({ id: 1, message: { text: 'the kiln' } });
    expect(second).toMatchObject({ id: 2 });
    expect(first?.physicalLocation.artifactLocation.uri).toBe('st/kilns.yaml');
  });

  it('has no text that is taken for a placeholder or a link', () => {
    const message = 'see {0} and [this](sarif:/runs/0)';
    expect(runOf([problem({ message, hint: '' })]).results[0]?.message.text).toBe(
      'see {{0}} and [this] (sarif:/runs/0)',
    );
  });

  it('holds whatever the book holds, and nothing of it raw', () => {
    holds(
      fc.property(anyText, anyText, (message, file) => {
        const text = sarif([problem({ message, place: place({ file }) })], {
          rules: RULES,
          version: '1.2.3',
          prefix: '',
        });
        expect(text.replaceAll('\n', '')).not.toMatch(UNSAFE);
        const [result] = runOf([problem({ message, hint: '', place: place({ file }) })]).results;
        const shown = result?.message.text.replaceAll('{{', '{').replaceAll('}}', '}');
        expect(shown?.replaceAll('] (', '](')).toBe(message.replaceAll('] (', ']('));
      }),
    );
  });
});

describe('a fingerprint', () => {
  it('stays when the record moves, in its file or to another', () => {
    const there = problem({ place: place({ file: 'sales/2026-04.yaml', line: 99, column: 1 }) });
    expect(prints(there)).toEqual(prints(problem()));
  });

  it('stays when only a figure in the message is another', () => {
    const low = (left: string, id = 'kaolin') =>
      problem({ message: `${id} ran short on 2026-05-01: ${left} lb on hand` });
    expect(prints(low('0.75'))).toEqual(prints(low('1,200')));
    expect(prints(low('0.75'))).not.toEqual(prints(low('0.75', 'f260301ab')));
  });

  it('is another for another rule, record or message', () => {
    const all = [
      problem(),
      problem({ rule: 'stray-file' }),
      problem({ record: 's2' }),
      problem({ message: 'the count is wrong' }),
      problem({ message: 's2 is wrong', record: 's1' }),
      problem({ message: 's1 is wrong', record: 's1' }),
    ];
    expect(new Set(all.flatMap((each) => prints(each))).size).toBe(all.length);
  });

  it('takes the file where no record is known', () => {
    const { record, ...unknown } = problem();
    expect(record).toBe('s1');
    const inFile = (file: string): Problem => ({ ...unknown, place: place({ file }) });
    expect(prints(inFile('a.yaml'))).not.toEqual(prints(inFile('b.yaml')));
  });

  it('is told apart by a turn where all else is equal', () => {
    const [first, second, third] = prints(problem(), problem(), problem());
    expect(new Set([first, second, third]).size).toBe(3);
    expect([first]).toEqual(prints(problem()));
  });
});
