/** Charts of what is in the bags and the buckets: how long it lasts, how it went, where its money is. */
import { daysBetween } from '../../number/date.ts';
import { decimal, isDecimal } from '../../number/decimal.ts';
import { setApart } from '../../in-words.ts';
import type { Chart } from '../page.ts';
import type { Column, Row, Table } from '../table.ts';
import { chartOfRows, firstRows, isSome, lastRows, nameIn, whatColumn } from './drawn-rows.ts';

/** What lasts longer need not be looked at yet. */
const HALF_A_YEAR = decimal(183);

const LEAD: Column = { key: 'lead', title: 'Lead time', type: 'count' };
const LEFT: Column = {
  key: 'daysLeft',
  title: 'Days left',
  type: 'quantity',
  places: 1,
  unit: 'days',
};

/** Days left of what runs out within half a year, beside the days that an order takes. */
export function daysLeftCharts(table: Table): Chart[] {
  const soon = table.rows.filter(runsOutSoon).toSorted(soonerFirst);
  const some = firstRows(
    soon.map((row) => ({ ...row, what: nameIn(row, 'name', 'material'), lead: leadOf(row) })),
  );
  const rest = table.rows.length - some.rows.length;
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'Days that materials last, beside the days that an order takes',
      span: `on ${table.asOf}`,
      label: 'what',
      value: LEFT.key,
      also: { marks: [LEAD.key] },
      more: [whatColumn('Material'), LEFT, LEAD],
      some: {
        ...some,
        words: rest === 0 ? '' : `; ${setApart(String(rest))} more last longer or are not used`,
      },
    }),
  ];
}

function runsOutSoon({ daysLeft, isToOrder }: Row): boolean {
  return isToOrder === true || (isDecimal(daysLeft) && daysLeft.lte(HALF_A_YEAR));
}

function soonerFirst({ daysLeft: one }: Row, { daysLeft: other }: Row): number {
  if (isDecimal(one) && isDecimal(other)) return one.cmp(other);
  return Number(isDecimal(one)) - Number(isDecimal(other));
}

function leadOf({ orderBy, runsOut }: Row): number | null {
  return typeof orderBy === 'string' && typeof runsOut === 'string'
    ? daysBetween(orderBy, runsOut)
    : null;
}

/** So many movements can be told from each other. */
const MOST_MOVEMENTS = 60;

/** What was on hand after each movement of one material. */
export function onHandCharts(table: Table): Chart[] {
  return [
    chartOfRows(table, {
      shape: 'course',
      title: 'On hand after each movement',
      span: `up to ${table.asOf}`,
      label: 'date',
      value: 'onHand',
      some: lastRows(table.rows, MOST_MOVEMENTS),
    }),
  ];
}

/** Where the money in materials stands, and how it left. */
export function materialValueCharts(table: Table, span: string): Chart[] {
  const rows = table.rows.filter(({ wentTo }) => isSome(wentTo));
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'Where the money in materials went',
      span,
      label: 'part',
      value: 'wentTo',
      some: { rows, words: '' },
    }),
  ];
}

const NEEDED: Column = { key: 'needed', title: 'They need', type: 'quantity', places: 0 };

/** What is in the bucket of each glaze, and what the ware that waits for it needs. */
export function bucketCharts(table: Table): Chart[] {
  const rows = table.rows.filter(({ waiting }) => isSome(waiting));
  return [
    chartOfRows(table, {
      shape: 'bars',
      title: 'In the bucket, and what the ware that waits needs of it',
      span: `on ${table.asOf}, dry weight`,
      label: 'name',
      value: 'inBucket',
      also: { marks: ['needed'] },
      more: [NEEDED],
      some: firstRows(rows),
    }),
  ];
}
