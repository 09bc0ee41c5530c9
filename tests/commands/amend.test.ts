import { describe, expect, it } from 'vitest';
import { amend } from '../../src/commands/records/amend.ts';
import { run } from '../helpers/command-world.ts';
import { SMALL_STUDIO, small } from '../helpers/small-studio.ts';
import { changes, filesIn } from '../helpers/temp-studio.ts';

describe('amend', () => {
  it('changes a value and leaves every other byte', async () => {
    const folder = small();
    const { status, out } = await run(amend, folder, {
      words: ['S260402CD', 'lines.1.price=35.50'],
    });
    expect(status).toBe(0);
    expect(out).toContain('sale s260402cd 129.60 USD → 127.80 USD\n');
    expect(changes(folder, SMALL_STUDIO)).toEqual({
      'sales/2026-04.yaml': SMALL_STUDIO['sales/2026-04.yaml']?.replace(
        'price: 36',
        'price: 35.50',
      ),
    });
  });

  it.each([
    [['x99', 'a=b'], 2, 'there is no record "x99" in this studio'],
    [['s260402ce', 'a=b'], 2, 'did you mean s260402cd?'],
    [['s260402cd'], 2, 'say what to change'],
    [['s260402cd', 'discount'], 2, 'is not a change'],
    [['s260402cd', 'discount=ten'], 1, 'sales/2026-04.yaml:19:13 schema error'],
    [['s260402cd', 'lines.1=1 mugg'], 1, 'lines.1:1:3 unknown-reference error'],
    [['s260402cd', 'channel='], 1, 'has no channel'],
    [['s260402cd', 'lines.1.price=36'], 1, 'says all this already'],
  ])('refuses %j', async (...[words, status, reason]) => {
    const folder = small();
    const said = await run(amend, folder, { words });
    expect([said.status, said.out]).toEqual([status, '']);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
  });

  it('mends a record that is not sound', async () => {
    const folder = small({
      'spent.yaml': 'e1:\n  date: 2026-04-31\n  to: X\n  for: booth\n  amount: 3\n',
    });
    expect(await run(amend, folder, { words: ['e1', 'date=2026-04-30'] })).toMatchObject({
      status: 0,
    });
    expect(filesIn(folder)['spent.yaml']).toContain('date: 2026-04-30');
  });

  it('does not touch an id that stands in two files', async () => {
    const again = SMALL_STUDIO['pieces/p260301ab.yaml'] ?? '';
    const folder = small({ 'pieces/more.yaml': again });
    const said = await run(amend, folder, { words: ['p260301ab', 'made=3'] });
    expect(said).toMatchObject({ status: 2 });
    expect(said.err).toContain('p260301ab is in pieces/more.yaml and in pieces/p260301ab.yaml');
  });
});

const GALLERY = `# Who sells for me.
hillside:
  name: The gallery
  kind: consignment
  commission: 40%
  changes:
    # Their first letter.
    - { from: 2026-01-01, commission: 42% }
    # Their last one.
    - from: 2026-09-01
      commission: 50%
`;

describe('amend --from', () => {
  const withGallery = (): string => small({ 'channels/hillside.yaml': GALLERY });
  const from = (day: string, ...words: string[]): Parameters<typeof run>[2] => ({
    words: ['hillside', ...words],
    options: { from: day },
  });

  it('writes a change among the others by its day, and says how to undo it', async () => {
    const folder = withGallery();
    const { status, out } = await run(amend, folder, from('2026-05-01', 'commission=45%'));
    expect(status).toBe(0);
    expect(out).toContain('Amended hillside from 2026-05-01 on in channels/hillside.yaml.');
    expect(out).toContain('saggar amend hillside changes.2=');
    expect(filesIn(folder)['channels/hillside.yaml']).toContain(`
    - { from: 2026-01-01, commission: 42% }
    - { from: 2026-05-01, commission: 45% }
    # Their last one.
    - from: 2026-09-01
`);
    await run(amend, folder, { words: ['hillside', 'changes.2='] });
    expect(filesIn(folder)['channels/hillside.yaml']).toBe(GALLERY);
  });

  it('adds to the change of that day, and takes a field out from a day on', async () => {
    const folder = withGallery();
    await run(amend, folder, from('2026-09-01', 'commission=', 'fee-each=1'));
    expect(filesIn(folder)['channels/hillside.yaml']).toContain(`
    - from: 2026-09-01
      fee-each: 1
      without: [commission]
`);
  });

  it('writes the labour rate into the settings', async () => {
    const folder = small();
    const { status, out } = await run(amend, folder, {
      words: ['studio.yaml', 'labour-rate=27'],
      options: { from: '2026-07-01' },
    });
    expect([status, out]).toEqual([
      0,
      expect.stringContaining('saggar amend studio.yaml changes='),
    ]);
    expect(filesIn(folder)['studio.yaml']).toContain('{ from: 2026-07-01, labour-rate: 27 }');
  });

  it.each([
    [['kind=fair'], '2026-05-01', 1, 'kind of hillside is the same on every day'],
    [['commission=42%'], '2026-05-01', 1, 'says all this on 2026-05-01 already'],
    [['commission=45%'], 'May', 2, 'takes a day such as 2026-03-08, and not "May"'],
  ])('refuses %j from %s', async (...[words, day, status, reason]) => {
    const folder = withGallery();
    const said = await run(amend, folder, from(day, ...words));
    expect([said.status, said.out]).toEqual([status, '']);
    expect(said.err.replace(/\s+/g, ' ')).toContain(reason);
  });
});
