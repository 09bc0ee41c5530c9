import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { KINDS, type Kind } from '../../src/book.ts';
import { addRecords as add } from '../../src/commands/records/add.ts';
import { planAdd } from '../../src/entry/add.ts';
import { exampleWords } from '../../src/entry/examples.ts';
import { expandRecord } from '../../src/entry/expand.ts';
import { readOptions } from '../../src/entry/fields.ts';
import { lexiconOf } from '../../src/entry/lexicon.ts';
import { run } from '../helpers/command-world.ts';
import { inGit } from '../helpers/git.ts';
import { SMALL_STUDIO, openFolder, small } from '../helpers/small-studio.ts';
import { changes, exampleCopy, filesIn } from '../helpers/temp-studio.ts';

/** A record of each kind with as many of its forms as there are. */
const TYPED: Readonly<Record<Kind, readonly string[]>> = {
  materials: [
    '--name',
    'Talc',
    '--kind',
    'dry',
    '--unit',
    'kg',
    '--contains',
    'silica',
    '--analysis',
    '63.5% SiO2',
    '--analysis',
    '31.7% MgO',
  ],
  recipes: [
    '--name',
    'Fog',
    '--kind',
    'glaze',
    '--cone',
    '04',
    '--base',
    '60 feldspar',
    '--base',
    '40 kaolin',
    '--addition',
    '2% cobalt',
    '--note',
    'x: y',
  ],
  products: [
    '--name',
    'Jar',
    '--clay-material',
    'buff-stoneware',
    '--clay-each',
    '2 lb',
    '--glaze',
    '40 g celadon where inside',
    '--fired',
    'bisque glaze',
    '--packing',
    '1 box-small',
    '--price',
    '48',
  ],
  classes: [
    '--name',
    'Lids',
    '--starts',
    '2026-09-12',
    '--hours',
    '2.5',
    '--fee',
    '160',
    '--clay-material',
    'buff-stoneware',
    '--clay-each',
    '5 lb',
  ],
  kilns: [
    '--name',
    'Mo',
    '--fuel',
    'electricity',
    '--power',
    '2.4 kW',
    '--duty',
    '60% test',
    '--duty',
    '50% bisque',
    '--wear',
    'elements for 240 over 150 firings fitted 2025-11-02',
  ],
  tariffs: [
    '--from',
    '2026-07-01',
    '--fuel',
    'electricity',
    '--price',
    '0.19',
    '--per',
    'kWh',
    '--band',
    '16:00-21:00 mon fri at 0.31',
  ],
  channels: ['--name', 'Harbour shop', '--kind', 'consignment', '--commission', '35%'],
  bought: [
    '--supplier',
    'Pit',
    '--invoice',
    '0417',
    '--freight',
    '18.50',
    '--line',
    '4 x 25 lb buff-stoneware for 92.00 lot 0044',
    '--line',
    '40 cone-6 for 22.00',
    '--paid',
    'no',
  ],
  reclaimed: ['--material', 'buff-stoneware', '--quantity', '12 lb'],
  mixed: [
    '--recipe',
    'celadon',
    '--base-weight',
    '3 kg',
    '--gravity',
    '1.45',
    '--lot',
    'feldspar b260105ab',
  ],
  pieces: [
    '--product',
    'mug',
    '--made',
    '12',
    '--lost',
    '1 cracked',
    '--glaze',
    '30 g celadon',
    '--clay-lot',
    '7734',
    '--date',
    '2026-04-11',
  ],
  firings: [
    '--kiln',
    'rotunda',
    '--kind',
    'bisque',
    '--cone',
    '04',
    '--meter-after',
    '240.5',
    '--supply',
    '2 cone-6',
    '--in',
    '3 for a neighbour: bowls',
    '--in',
    '5 evening-class 5 first',
    '--started',
    '06:30',
  ],
  used: ['--material', 'kaolin', '--quantity', '2 kg', '--for', 'test'],
  counted: ['--material', '12.5 kg kaolin', '--piece', '2 mug sea-green first why one was found'],
  orders: [
    ...['--buyer', 'true', '--due', '2026-09-01', '--channel', 'market', '--note', '2026'],
    ...['--line', '6 mug sea-green at 36 note no: handles', '--line', '1 for a platter at 120'],
  ],
  sales: [
    '--channel',
    'market',
    '--line',
    '1 mug sea-green at 38',
    '--line',
    '1 mug second less 10%',
    '--line',
    '1 for repair at 5',
    '--buyer',
    'true',
    ...['--discount', '5%', '--advance', 'a260308kt 12.50'],
  ],
  advances: [
    ...'--for certificate --amount 40.00 --number 0117 --channel market'.split(' '),
    ...['--refunded', '10 on 2026-05-01'],
  ],
  consigned: ['--channel', 'gallery', '--sent', '2 mug at 40'],
  fairs: [
    ...['--name', 'The Fair: 2026', '--last', '2026-05-01', '--place', 'true'],
    ...'--channel market --hours 14.5'.split(' '),
  ],
  spent: [
    '--to',
    'The Fair',
    '--for',
    'booth',
    '--amount',
    '120.00',
    '--channel',
    'market',
    '--note',
    '2026',
  ],
  tests: [
    '--kind',
    'leach',
    '--recipe',
    'celadon',
    '--leach-lead',
    'under 0.01',
    '--leach-lab',
    '12E5',
  ],
  filed: [
    ...'--period 2025 --sheet plain'.split(' '),
    ...['--line', '0 19', '--line', '0.00 net-profit', '--note', '2026'],
  ],
};

describe('a record of each kind', () => {
  it.each(KINDS)('%s: options and standard input write the same bytes', async (kind) => {
    const byOptions = small();
    const said = await run(add, byOptions, { words: [kind, ...TYPED[kind]] });
    expect([said.status, said.err]).toEqual([0, '']);
    const written = changes(byOptions, SMALL_STUDIO);
    expect(Object.keys(written)).toHaveLength(1);
    for (const input of [recordShown(said.out), fieldsShown(said.out), mixedUp(said.out)]) {
      const byInput = small();
      expect(await run(add, byInput, { words: [kind], input })).toEqual(said);
      expect(changes(byInput, SMALL_STUDIO)).toEqual(written);
    }
  });

  it.each(KINDS)('%s: git apply makes the same of a dry run', async (kind) => {
    const folder = inGit(small());
    const words = [kind, ...TYPED[kind]];
    const dry = await run(add, folder, { words, options: { dryRun: true } });
    expect([dry.status, dry.err]).toEqual([0, '']);
    expect(filesIn(folder)).toEqual(SMALL_STUDIO);
    const wet = small();
    await run(add, wet, { words });
    execFileSync('git', ['apply', '-'], { cwd: folder, input: dry.out });
    expect(filesIn(folder)).toEqual(filesIn(wet));
  });

  it('is sound in the example studio as the help has it', async () => {
    const opened = await openFolder(exampleCopy(), '2026-07-01');
    const lexicon = lexiconOf(opened.reading.files);
    for (const kind of KINDS) {
      const read = readOptions({ kind, words: exampleWords(kind), others: [] });
      if ('refused' in read) throw new Error(read.refused);
      const { fields, faults } = expandRecord(kind, read.fields, { lexicon, day: opened.asOf });
      expect(faults).toEqual([]);
      const plan = await planAdd(opened, {
        kind,
        records: [{ id: undefined, fields }],
        random: () => 0,
      });
      expect('refused' in plan ? plan.refused : plan.problems).toEqual([]);
    }
  });
});

/** The YAML of a record that a command showed, id and all. */
function recordShown(out: string): string {
  const lines = out.split('\n');
  const end = lines.findIndex((line, index) => index > 0 && !/^ {2}(?:[a-z-]+:| )/.test(line));
  return `${lines.slice(0, end).join('\n')}\n`;
}

/** The same without the id. */
function fieldsShown(out: string): string {
  return recordShown(out)
    .split('\n')
    .slice(1)
    .map((line) => line.slice(2))
    .join('\n');
}

/** The same with its fields the other way round. */
function mixedUp(out: string): string {
  const fields = fieldsShown(out)
    .trimEnd()
    .split(/\n(?! )/);
  return `${fields.reverse().join('\n')}\n`;
}
