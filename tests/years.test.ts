/** What `npm run years` says of invented shelves of sheets on invented days. */
import { describe, expect, it } from 'vitest';
import { yearsWanting } from './years.js';

const SHELF = {
  plain: { title: 'Plain' },
  'form-2025': { title: 'Form 2025' },
  'form-2026': { title: 'Form 2026' },
};

describe('the years that want a sheet', () => {
  it('are all up to that of the day', () => {
    expect(yearsWanting(SHELF, '2026-08-31')).toEqual([]);
    expect(yearsWanting(SHELF, '2028-01-01')).toEqual([
      'form-2027 is missing: write schema/tax-sheets/form-2027.yaml',
      'form-2028 is missing: write schema/tax-sheets/form-2028.yaml',
    ]);
  });

  it('are the next one too from September on', () => {
    expect(yearsWanting(SHELF, '2026-09-01')).toEqual([
      'form-2027 is missing: write schema/tax-sheets/form-2027.yaml',
    ]);
  });

  it('are one between others that has none', () => {
    const others = { 'form-2024': { title: 'Form 2024' }, 'form-2026': SHELF['form-2026'] };
    expect(yearsWanting(others, '2026-01-01').join()).toContain('form-2025 is missing');
  });

  it('are those whose sheet or a part of it is not verified', () => {
    const shelf = {
      'form-2025': { title: 'Form', payees: { least: '600', unverified: 'yes' } },
      'form-2026': { title: 'Form', unverified: 'taken over', updates: { unverified: 'no' } },
    };
    expect(yearsWanting(shelf, '2026-01-01')).toEqual([
      'form-2025 payees is not verified',
      'form-2026 is not verified: taken over',
    ]);
  });
});
