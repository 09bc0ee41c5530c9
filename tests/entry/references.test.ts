import { describe, expect, it } from 'vitest';
import { referencesTo } from '../../src/entry/remove.ts';
import { KINDS, type Kind } from '../../src/book.ts';
import { rawFile } from '../helpers/file-views.ts';
import { SMALL_STUDIO } from '../helpers/small-studio.ts';

const EXTRA: Readonly<Record<string, string>> = {
  ...SMALL_STUDIO,
  'mixed/m2.yaml': `m2:
  date: 2026-02-01
  recipe: celadon
  base-weight: 1 kg
  tops-up: m260110ab
  lots: { kaolin: b260105ab, feldspar: "7734" }
  note: b260105ab
`,
  'pieces/p2.yaml':
    'p2:\n  date: 2026-02-02\n  product: mug\n  made: 1\n  clay: { lot: b260105ab }\n',
  'firings/f2.yaml':
    'f2:\n  fuel-used: { material: propane, quantity: 3 lb }\n  load: [{ class: evening-class, in: 1 }]\n',
  'used.yaml': 'u2:\n  material: kaolin\n  for: evening-class\n',
};

const files = Object.entries(EXTRA).map(([file, text]) => {
  const name = file.replace(/(?:\/.*|\.yaml)$/, '');
  return rawFile(KINDS.find((kind) => kind === name) ?? 'studio', text, file);
});

function users(kind: Kind, id: string): string[] {
  return referencesTo(files, { kind, id }).map(({ path }) => path.join(' '));
}

describe('who names a record', () => {
  it('is found in lists, records, either-or values and the names of mappings', () => {
    expect(users('materials', 'propane')).toEqual(['f2 fuel-used material']);
    expect(users('materials', 'cobalt')).toEqual(['b260105ab lines 3 material']);
    expect(users('materials', 'kaolin')).toEqual([
      'sea-green versions 0 base 1 material',
      'b260105ab lines 1 material',
      'm2 lots kaolin',
      'u2 material',
    ]);
    expect(users('classes', 'evening-class')).toEqual([
      'f260430ef load 1 class',
      'f2 load 0 class',
      'u2 for',
    ]);
    expect(users('mixed', 'm260110ab')).toEqual(['m2 tops-up']);
  });

  it('is found where a bag is named by the id of its purchase, but not in notes', () => {
    expect(users('bought', 'b260105ab')).toEqual(['m2 lots kaolin', 'p2 clay lot']);
  });

  it('is nobody for an id that stands for another kind there', () => {
    expect(users('channels', 'mug')).toEqual([]);
    expect(users('sales', 's260401ab')).toEqual([]);
  });
});
