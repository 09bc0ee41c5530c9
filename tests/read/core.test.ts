import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { coreFile, type CoreFile } from '../../src/read/yaml/core.ts';
import { parseText } from '../../src/read/yaml/parse.ts';
import { scan } from '../../src/read/yaml/scan.ts';
import { blockYaml } from './support/block-yaml.ts';
import { holds } from '../helpers/law.ts';

const MARKED = { numberKeys: new Set<string>(), marks: true };

function view(text: string): CoreFile {
  return coreFile(parseText({ file: 'a.yaml', text }, MARKED).root, text);
}

describe("a core reader's view", () => {
  const file = view(
    'a:\n  cone: 04\n  lot: "0713"\n  note: |\n    4\n  gone: true\n  none:\n  list: [1.10, \'2\', {x: ~}]\n',
  );

  test('has numbers, truths and nulls', () => {
    expect(JSON.parse(JSON.stringify(file.root))).toEqual({
      a: {
        cone: 4,
        lot: '0713',
        note: '4\n',
        gone: true,
        none: null,
        list: [1.1, '2', { x: null }],
      },
    });
  });

  test.each([
    [['a', 'cone'], true, '04'],
    [['a', 'lot'], false, '0713'],
    [['a', 'note'], false, '4\n'],
    [['a', 'none'], true, ''],
    [['a', 'list', 0], true, '1.10'],
    [['a', 'list', 1], false, '2'],
    [['a', 'list', 2, 'x'], true, '~'],
    [['a', 'list'], undefined, ''],
    [['a'], undefined, ''],
    [[], undefined, ''],
    [['a', 'list', 9], undefined, ''],
    [['a', 'list', 'length'], undefined, ''],
    [['a', 'toString'], undefined, ''],
    [['a', 'cone', 'x'], undefined, ''],
  ])('%j: unquoted %s, text %j', (path, plain, text) => {
    expect(file.plain(path)).toBe(plain);
    expect(file.text(path)).toBe(text);
  });

  test('is the same from both readers, and that of the yaml package', () => {
    let count = 0;
    const same = fc.property(blockYaml, (text) => {
      const scanned = scan(text, MARKED);
      if (!scanned) return;
      count += 1;
      const { root } = coreFile(scanned.root, '');
      expect(root).toEqual(view(text).root);
      expect(root).toEqual(parse(text) ?? {});
    });
    holds(same, 1000);
    expect(count).toBeGreaterThan(100);
  });
});
