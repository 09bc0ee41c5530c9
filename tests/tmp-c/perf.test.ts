import { it } from 'vitest';
import { quartersOf } from '../../src/reckon/tax/tax-period.ts';
import { allReports } from '../../src/review/all-reports.ts';
import { movedFigures } from '../../src/review/report-figures.ts';
import { flow } from '../../src/reckon/flow.ts';
import { namedSheet, isSheet } from '../../src/check/sheets/named-sheet.ts';
import { bookOfFolder } from './book.ts';
it('perf', async () => {
  const dir = process.env['STUDIO'] ?? 'example-studio';
  const book = await bookOfFolder(dir);
  const asOf = '2026-06-30';
  const t0 = Date.now(); flow(book, asOf); console.log('flow', Date.now() - t0);
  const years = dir.includes('example') ? ['2025','2026'] : ['2016','2017','2018','2019','2020','2021','2022','2023','2024','2025','2026'];
  const periods = years.flatMap((y) => quartersOf(y)).filter(p => p.from <= asOf);
  const sheetOf = (year: string) => { const s = namedSheet('us-schedule-c', { studio: book.studio, own: [], year }); return isSheet(s) ? s : undefined; };
  const t1 = Date.now(); const one = allReports({ book, sheetOf }, { asOf, periods }); console.log('reports', Date.now() - t1, periods.length);
  const t2 = Date.now(); allReports({ book, sheetOf }, { asOf, periods: periods.slice(-2) }); console.log('again, two quarters', Date.now() - t2);
  const t3 = Date.now(); console.log(movedFigures(one, one, (w) => w).length, Date.now() - t3);
}, 600000);
