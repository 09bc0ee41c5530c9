/** Categories of the studio's own belong on lines of expenses. */
import { describe, expect, it } from 'vitest';
import { taxSheetFaults } from '../../src/check/rules/tax-sheet.ts';
import type { Studio } from '../../src/book.ts';

function faultsOf(line: string, settings: Partial<Studio> = {}): string[] {
  const studio = {
    file: 'studio.yaml',
    format: '1',
    name: 'A studio',
    currency: 'USD',
    categories: { van: line },
    ...settings,
  };
  return taxSheetFaults(studio, { files: [] }).map(({ message, hint }) => `${message}; ${hint}`);
}

describe('a category of one’s own', () => {
  it.each(['car', '9', 'other', '27a', '27b', '13', '37'])('may be on line %s', (line) => {
    expect(faultsOf(line)).toEqual([]);
  });

  it.each(['1', '2', '6', '28', '31', '35', '41', '42', '33', 'sales', 'closing-stock'])(
    'is refused on line %s, which is none of expenses',
    (line) => {
      expect(faultsOf(line)).toEqual([
        `line ${line} of the tax sheet is not a line of expenses; write other`,
      ]);
    },
  );

  it('is refused on a line that is not there', () => {
    expect(faultsOf('nothing')).toEqual([
      'the tax sheet has no line nothing, and there is no such category; write other',
    ]);
    expect(faultsOf('ofice')[0]).toContain('did you mean office?');
  });

  it('goes by the sheet that the studio names', () => {
    expect(faultsOf('11', { taxSheet: 'uk-sa103s' })).toEqual([]);
    expect(faultsOf('9', { taxSheet: 'uk-sa103s' })).toHaveLength(1);
    expect(faultsOf('27', { taxSheet: 'uk-sa103s' })).toHaveLength(1);
  });
});
