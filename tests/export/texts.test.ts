import { describe, expect, it } from 'vitest';
import { textPages, textPlaces } from '../../src/export/texts.ts';
import { writtenInPieces, writtenLines } from '../../src/render/html/written.ts';
import type { RecordLine } from '../../src/report/page.ts';
import { bookFrom } from '../helpers/book.ts';

const { studio: SETTINGS } = bookFrom({});

/** A file with so many records of two lines each, the first below a remark. */
function textOf(file: string, records: number): string {
  const all = Array.from({ length: records }, (_, at) => `x${at}:\n  file: ${file} <${at}>\n`);
  return `# of ${file}\n${all.join('')}`;
}

function recordsOf(file: string, records: number): RecordLine[] {
  return Array.from({ length: records }, (_, at) => ({
    id: `${file} x${at}`,
    kind: 'sale',
    date: undefined,
    what: '',
    file,
    line: 2 + 2 * at,
  }));
}

const FILES = Array.from(
  { length: 12 },
  (_, at) => `sales/2025-${String(at + 1).padStart(2, '0')}.yaml`,
);

describe('the files of an export as pages', () => {
  const records = new Map(
    [...FILES.flatMap((file) => recordsOf(file, 400)), ...recordsOf('kilns.yaml', 2)].map(
      (record) => [record.id, record],
    ),
  );
  const pages = textPages(records, SETTINGS);

  it('have those of a kind together, on several pages where they are many', () => {
    expect(pages.map(({ path, title, files }) => [path, title, files.length])).toEqual([
      ['book/kilns.html', 'Kilns', 1],
      ['book/sales-1.html', 'Sales, 2025-01 to 2025-02', 2],
      ['book/sales-2.html', 'Sales, 2025-03 to 2025-04', 2],
      ['book/sales-3.html', 'Sales, 2025-05 to 2025-06', 2],
      ['book/sales-4.html', 'Sales, 2025-07 to 2025-08', 2],
      ['book/sales-5.html', 'Sales, 2025-09 to 2025-10', 2],
      ['book/sales-6.html', 'Sales, 2025-11 to 2025-12', 2],
      ['book/studio.html', 'Settings', 1],
    ]);
    expect(pages[1]?.about).toBe('What was sold, and other income of the studio.');
  });

  it('have each line under the address that leads to it', () => {
    const texts = new Map(FILES.map((file) => [file, textOf(file, 400)]));
    const counts = new Map([...texts].map(([file, text]) => [file, writtenLines(text).length]));
    const placeOf = textPlaces(pages, counts);
    const written = new Map(
      pages.map(({ path, title, files }) => {
        const of = files.map((file) => ({ file, text: texts.get(file) ?? '' }));
        const up = { to: '../index.html', words: 'All' };
        const page = writtenInPieces({ title, caption: '', footer: '', up, files: of });
        return [`../${path}`, [...page].join('')];
      }),
    );
    for (const [id, { file, line }] of records) {
      if (line === undefined || !texts.has(file) || line % 97 !== 0) continue;
      const [path = '', place = ''] = placeOf(file, line).split('#');
      const record = id.split(' ')[1] ?? '';
      expect(written.get(path)).toContain(`<span id="${place}">${record}:</span>`);
      expect(written.get(path)?.split(` id="${place}"`)).toHaveLength(2);
    }
    const [path = '', id = ''] = placeOf('sales/2025-04.yaml', undefined).split('#');
    expect(written.get(path)).toContain(`<h2 id="${id}">sales/2025-04.yaml</h2>`);
  });
});
