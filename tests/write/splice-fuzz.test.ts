/** Files with faults: the splices refuse or do what they should, and never throw. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { appendRecord } from '../../src/write/append.ts';
import { removeField, removeRecord, setField } from '../../src/write/splice.ts';
import { tidyText } from '../../src/write/tidy.ts';
import type { Spliced } from '../../src/write/trail.ts';
import { holds } from '../helpers/law.ts';
import { layOut, type Tree } from '../helpers/layout.ts';
import { secondReading } from '../helpers/second-reader.ts';

const fault = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  gone: fc.integer({ min: 0, max: 4 }),
  put: fc.oneof(
    fc.constantFrom('\n', '\r', '\r\n', '  ', '\t', ':', ': ', '- ', '#', ' # ', "'", '"', '\0'),
    fc.constantFrom('{', '}', '[', ']', ',', '|', '>', '|+\n', '&a ', '*a', '!t ', '<<: ', '? '),
    fc.constantFrom('---\n', '\n---\n', '...\n', '%YAML 1.1\n', '\ufeff', '\u2028', 'é', '\\', '@'),
    fc.constant(''),
  ),
});

function spoil(text: string, faults: readonly { at: number; gone: number; put: string }[]): string {
  return faults.reduce((spoiled, { at, gone, put }) => {
    const offset = Math.floor(at * spoiled.length);
    return spoiled.slice(0, offset) + put + spoiled.slice(offset + gone);
  }, text);
}

function readOrUndefined(text: string): Tree | undefined {
  try {
    return secondReading(text);
  } catch {
    return undefined;
  }
}

/** Where the second parser reads the file before, it reads it after too, with the others untouched. */
function expectOthersUntouched(before: string, spliced: Spliced, id: string): void {
  if ('refused' in spliced) {
    expect(spliced.refused).not.toBe('');
    return;
  }
  const [old, now] = [readOrUndefined(before), readOrUndefined(spliced.text)];
  if (!(old instanceof Map)) return;
  const others = (tree: Map<string, Tree>) => [...tree].filter(([key]) => key !== id);
  expect(now).toBeInstanceOf(Map);
  expect(others(now as Map<string, Tree>)).toEqual(others(old));
}

test('no fault in a file makes a splice throw or harm another record', () => {
  holds(
    fc.property(
      fc.nat(1e9),
      fc.array(fault, { minLength: 1, maxLength: 3 }),
      fc.nat(5),
      (seed, faults, size) => {
        const laid = layOut(seed, size);
        const text = spoil(laid.text, faults);
        const path = laid.scalars[seed % Math.max(laid.scalars.length, 1)]?.path ?? ['a', 'x'];
        const id = String(path[0]);
        expectOthersUntouched(text, appendRecord(text, 'new-1', { x: '1' }), 'new-1');
        expectOthersUntouched(text, setField(text, path, 'x\ny'), id);
        expectOthersUntouched(text, setField(text, [id, 'added'], 'x\ny'), id);
        expectOthersUntouched(text, removeField(text, path), id);
        expectOthersUntouched(text, removeRecord(text, id), id);
        expectOthersUntouched(text, tidyText(text, [{ path }]), id);
      },
    ),
    80,
  );
});
