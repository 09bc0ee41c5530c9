import { describe, expect, it } from 'vitest';
import type { Kind } from '../../src/book.ts';
import { planAdd, type AddPlan, type Additions } from '../../src/entry/add.ts';
import type { GivenRecord } from '../../src/entry/given.ts';
import { SMALL_STUDIO, TODAY, openFolder } from '../helpers/small-studio.ts';
import { filesIn, tempStudio } from '../helpers/temp-studio.ts';

const USED = { date: TODAY, material: 'kaolin', quantity: '1 kg' };

async function plan(
  kind: Kind,
  records: readonly GivenRecord[],
  more: { readonly files?: Record<string, string>; readonly random?: Additions['random'] } = {},
): Promise<AddPlan | { readonly refused: string }> {
  const opened = await openFolder(tempStudio({ ...SMALL_STUDIO, ...more.files }));
  return planAdd(opened, { kind, records, random: more.random ?? (() => 0) });
}

function sure(planned: AddPlan | { readonly refused: string }): AddPlan {
  if ('refused' in planned) throw new Error(planned.refused);
  return planned;
}

describe('a plan to add', () => {
  it('puts an event at the end of the month that it is of, under a new id', async () => {
    const sale = {
      date: '2026-04-30',
      channel: 'market',
      lines: [{ product: 'mug', count: '1', price: '30' }],
    };
    const { changes, added, problems } = sure(
      await plan('sales', [{ id: undefined, fields: sale }]),
    );
    expect(added).toMatchObject([{ id: 's260430bb', file: 'sales/2026-04.yaml' }]);
    const before = SMALL_STUDIO['sales/2026-04.yaml'];
    expect(changes).toEqual([
      {
        file: 'sales/2026-04.yaml',
        before,
        after: `${before ?? ''}\ns260430bb:\n  date: 2026-04-30\n  channel: market\n  lines:\n    - { product: mug, count: 1, price: 30 }\n`,
      },
    ]);
    expect(problems).toEqual([]);
  });

  it('makes a file where there is none for the month, or for the record', async () => {
    const used = sure(await plan('used', [{ id: undefined, fields: USED }]));
    expect(used.changes).toMatchObject([{ file: 'used/2026-05.yaml', before: undefined }]);
    const lot = { date: TODAY, product: 'mug', made: '3' };
    const pieces = sure(await plan('pieces', [{ id: undefined, fields: lot }]));
    expect(pieces.changes).toMatchObject([{ file: 'pieces/p260501bb.yaml', before: undefined }]);
  });

  it('begins a new file with the line that names its schema, where the studio has the schemas', async () => {
    const files = { '.schema/used.json': '{}', '.schema/pieces.json': '{}' };
    const two = [USED, USED].map((fields) => ({ id: undefined, fields }));
    const used = sure(await plan('used', two, { files }));
    expect(used.changes.map(({ after }) => after?.replaceAll(/^ .*\n/gm, ''))).toEqual([
      '# yaml-language-server: $schema=../.schema/used.json\n\nu260501bb:\n\nu260501bc:\n',
    ]);
    const lot = { date: TODAY, product: 'mug', made: '3' };
    const pieces = sure(await plan('pieces', [{ id: undefined, fields: lot }], { files }));
    expect(pieces.changes[0]?.after).toMatch(
      /^# yaml-language-server: \$schema=..\/.schema\/pieces.json\n\np260501bb:\n/,
    );
    const sale = { date: TODAY, channel: 'market', lines: [{ for: 'x', count: '1', price: '3' }] };
    const sales = sure(await plan('sales', [{ id: undefined, fields: sale }], { files }));
    expect(sales.changes[0]?.after).not.toContain('yaml-language-server');
  });

  it('gives ids that nothing in the studio has, whatever its kind and capitals', async () => {
    const files = { 'tests.yaml': 'U260501BB:\n  date: 2026-05-01\n  kind: tile\n' };
    const two = [USED, USED].map((fields) => ({ id: undefined, fields }));
    const { added, changes } = sure(await plan('used', two, { files }));
    expect(added.map(({ id }) => id)).toEqual(['u260501bc', 'u260501bd']);
    expect(changes).toHaveLength(1);
    expect(changes[0]?.after).toMatch(/^u260501bc:\n[^]*\nu260501bd:\n/);
  });

  it('names a definition by its own name', async () => {
    const name = async (kind: Kind, fields: GivenRecord['fields']): Promise<unknown> =>
      sure(await plan(kind, [{ id: undefined, fields }])).added[0]?.id;
    const talc = { name: 'Talc, 325 mesh (Ünïqué)', kind: 'dry', unit: 'kg' };
    expect(await name('materials', talc)).toBe('talc-325-mesh-unique');
    expect(await name('materials', { ...talc, name: '3rd bag' })).toBe('rd-bag');
    const tariff = { from: '2026-07-01', fuel: 'propane', price: '1', per: 'lb' };
    expect(await name('tariffs', tariff)).toBe('propane-2026-07-01');
  });

  it.each([
    [
      'materials',
      { id: 'KAOLIN', fields: {} },
      'there is a record kaolin already, in materials.yaml',
    ],
    ['materials', { id: undefined, fields: { name: 'Mug' } }, 'there is a record mug already'],
    ['materials', { id: undefined, fields: { kind: 'dry' } }, 'give it one with --id'],
    ['materials', { id: undefined, fields: { name: '42' } }, 'give it one with --id'],
  ] as const)('is refused for %s %j', async (kind, record, reason) => {
    expect(await plan(kind, [record])).toEqual({
      refused: expect.stringContaining(reason) as string,
    });
  });

  it('is refused for two of one id', async () => {
    const two = ['x1', 'X1'].map((id) => ({ id, fields: USED }));
    expect(await plan('used', two)).toEqual({
      refused: 'there is a record X1 already among these; give another id with --id',
    });
  });

  it('is refused where the file can not be changed without harm', async () => {
    const files = { 'used/2026-05.yaml': '- a list\n' };
    expect(await plan('used', [{ id: undefined, fields: USED }], { files })).toEqual({
      refused: expect.stringContaining('used/2026-05.yaml was left as it is') as string,
    });
  });

  it('finds errors in the new record at their places in the new text', async () => {
    const fields = { ...USED, material: 'kaolim', quantity: '1 kg' };
    const { errors, problems } = sure(await plan('used', [{ id: 'u1', fields }]));
    expect(errors).toBe(1);
    expect(problems).toMatchObject([
      {
        rule: 'unknown-reference',
        place: { file: 'used/2026-05.yaml', line: 3, column: 13, source: '  material: kaolim' },
      },
    ]);
  });

  it('finds what the new record spoils elsewhere', async () => {
    const fields = { date: '2026-03-09', material: 'kaolin', quantity: '18 kg' };
    const files = {
      'used/2026-05.yaml': 'u2:\n  date: 2026-05-01\n  material: kaolin\n  quantity: 1 kg\n',
    };
    const { errors, problems } = sure(await plan('used', [{ id: 'u1', fields }], { files }));
    expect(errors).toBe(0);
    expect(problems.map(({ rule, place }) => [rule, place.file])).toContainEqual([
      'stock-below-zero',
      'used/2026-05.yaml',
    ]);
  });

  it('does not mind what was wrong before', async () => {
    const files = { 'spent.yaml': 'e1:\n  date: 2026-13-01\n', 'used/x.yaml': 'u: &a b\n' };
    const { errors, problems } = sure(await plan('used', [{ id: 'u1', fields: USED }], { files }));
    expect([errors, problems]).toEqual([0, []]);
  });

  it('has the book on both sides of the change', async () => {
    const { sides } = sure(await plan('used', [{ id: 'u1', fields: USED }]));
    expect(sides.before.used.has('u1')).toBe(false);
    expect(sides.after.used.get('u1')).toMatchObject({
      material: 'kaolin',
      file: 'used/2026-05.yaml',
    });
    expect([...sides.after.sales]).toEqual([...sides.before.sales]);
  });

  it('writes nothing', async () => {
    const opened = await openFolder(tempStudio(SMALL_STUDIO));
    await planAdd(opened, { kind: 'used', records: [{ id: 'u1', fields: USED }], random: () => 0 });
    expect(filesIn(opened.folder)).toEqual(SMALL_STUDIO);
  });

  it('keeps a byte order mark and Windows line ends', async () => {
    const before = '\ufeffu9:\r\n  date: 2026-05-01\r\n  material: kaolin\r\n  quantity: 1 kg\r\n';
    const files = { 'used/2026-05.yaml': before };
    const { changes, problems } = sure(await plan('used', [{ id: 'u1', fields: USED }], { files }));
    expect(changes[0]?.before).toBe(before);
    expect(changes[0]?.after).toBe(
      `${before}\r\nu1:\r\n  date: 2026-05-01\r\n  material: kaolin\r\n  quantity: 1 kg\r\n`,
    );
    expect(problems).toEqual([]);
  });
});
