/** What a book comes to by the program, in the shape that is compared. */
import type { Book, Sale } from '../../../src/book.ts';
import { inBaseUnits, type Measure } from '../../../src/number/measure.ts';
import { opposite } from '../../../src/number/money.ts';
import { restOf } from '../../../src/reckon/costs/cost.ts';
import { enrolmentParts, meetingsOf } from '../../../src/reckon/sales/enrolment.ts';
import { missingFacts } from '../../../src/reckon/sales/debts.ts';
import { valueOf } from '../../../src/reckon/stock/pool.ts';
import { saleMoney, type LineMoney } from '../../../src/reckon/sales/sale-money.ts';
import type { EarnedLine } from '../../../src/reckon/sales/earned.ts';
import type { Movement } from '../../../src/reckon/stock/stock.ts';
import { exact } from '../../second-reckoning/fraction.ts';
import { isBeforeStart } from '../../../src/reckon/stock/opening.ts';
import { accountTexts, amountsText, costText, type Cents, type Entry } from './cents.ts';
import { borneBy } from '../../helpers/accounts.ts';
import { placedPieces } from '../../../src/reckon/ware/lot.ts';
import { type Flows, soldSaleOf } from '../../../src/reckon/flows.ts';

type Texts = Record<string, string>;

/** By the program. */
export function programCents(book: Book, flows: Flows): Cents {
  const sales = [...flows.ware.sales]
    .flatMap(({ id }) => book.sales.get(id) ?? [])
    .filter(({ date }) => !isBeforeStart(book, date));
  return {
    ...stockCents(flows),
    ...firingCents(flows),
    ...wareCents(flows),
    accounts: accountTexts([...wareEntries(flows), ...stockEntries(flows)]),
    ...saleCents(book, flows, sales),
    missing: missingCents(book, flows),
  };
}

function quantityText(quantity: Measure): string {
  const { top, bottom } = exact(inBaseUnits(quantity));
  return `${top}/${bottom}`;
}

function stockCents({ stock }: Flows): Pick<Cents, 'pools' | 'movements'> {
  const pools: Texts = {};
  const movements: Texts = {};
  for (const { id, pool } of stock.pools.values())
    pools[id] = amountsText({ quantity: quantityText(pool.onHand), value: valueOf(pool) });
  for (const movement of stock.movements) {
    const { pool, reason, by, day, value } = movement;
    const quantity = quantityText(movement.quantity);
    const text = amountsText({ [day]: by, [reason]: quantity, value });
    movements[pool] = `${movements[pool] ?? ''}${text}\n`;
  }
  return { pools, movements };
}

function firingCents({ ware }: Flows): Pick<Cents, 'firings' | 'loads'> {
  const firings: Texts = {};
  const loads: Texts = {};
  for (const [id, cost] of ware.firings) {
    const { energy, energyCost, fuelCost, wearCost, suppliesCost, labourCost } = cost;
    firings[id] = amountsText({
      energy: energyCost ?? 0n,
      known: energyCost !== undefined || 'material' in (cost.firing.fuelUsed ?? {}),
      estimated: energy?.estimated ?? false,
      fuel: fuelCost,
      wear: wearCost,
      supplies: suppliesCost,
      labour: labourCost,
    });
    const borne = borneBy(ware.facts, id);
    cost.shares.forEach((share, at) => {
      const glaze = borne[at]?.glaze ?? 0n;
      loads[`${id} ${at}`] = costText({ ...share, glaze });
    });
  }
  return { firings, loads };
}

function wareCents({ ware }: Flows): Pick<Cents, 'lots' | 'holdings'> {
  const lots: Texts = {};
  const holdings: Texts = {};
  for (const [id, state] of ware.lots) {
    const finished = restOf(state.shelf);
    lots[`${id} making`] = costText(state.making);
    lots[`${id} finished`] = `${finished.count}: ${costText(finished.cost)}`;
    state.stages.forEach((batch, stage) => {
      const { count, cost } = restOf(batch);
      if (count !== 0 || costText(cost) !== '')
        lots[`${id} stage ${stage}`] = `${count}: ${costText(cost)}`;
    });
    state.inKiln.forEach(({ firing, count, cost }, at) => {
      lots[`${id} kiln ${at}`] = `${firing}, ${count}: ${costText(cost)}`;
    });
    for (const { grade, place, count, cost } of placedPieces(state))
      holdings[`${id} ${grade} ${place}`] = `${count}: ${costText(cost)}`;
  }
  return { lots, holdings };
}

function wareEntries({ ware }: Flows): Entry[] {
  return [...ware.facts]
    .filter(({ reason }) => !['made', 'fired', 'opened'].includes(reason))
    .map(({ reason: account, day, by: record, lot, cost }) => ({
      ...{ account, day, record, lot, cost },
    }));
}

const STOCK_ACCOUNTS: Partial<Record<Movement['reason'], string>> = {
  used: 'used',
  counted: 'differences',
  settled: 'differences',
};

function stockEntries({ stock }: Flows): Entry[] {
  return [...stock.movements].flatMap(({ day, by: record, reason, value }) => {
    const account = STOCK_ACCOUNTS[reason];
    return account === undefined
      ? []
      : [{ account, day, record, lot: '', cost: { material: opposite(value) } }];
  });
}

function saleCents(
  book: Book,
  { ware }: Flows,
  sales: readonly Sale[],
): Pick<Cents, 'lines' | 'sales' | 'meetings'> {
  const lines: Texts = {};
  const all: Texts = {};
  const meetings: Texts = {};
  for (const sale of sales) {
    const money = saleMoney(book, sale);
    const { shipping, fee, commission, tax } = money;
    all[sale.id] = amountsText({ shipping, fee, commission, tax });
    money.lines.forEach((line, at) => {
      lines[`${sale.id} ${at}`] = lineText(line, soldSaleOf(ware, sale)?.lines[at]);
      const parts = meetingsText(book, sale, line);
      if (parts !== undefined) meetings[`${sale.id} ${at}`] = parts;
    });
  }
  return { lines, sales: all, meetings };
}

function missingCents(book: Book, { stock: { asOf } }: Flows): Texts {
  const texts: Texts = {};
  for (const basis of ['accrual', 'cash'] as const)
    for (const { by, day, gross } of missingFacts(book, { basis, asOf }))
      texts[`${by} ${basis}`] = `${texts[`${by} ${basis}`] ?? ''}${day} ${gross}\n`;
  return texts;
}

function lineText(money: LineMoney, sold: EarnedLine | undefined): string {
  const { returned, gross, discounts, net, taxIncluded: tax, fee, commission } = money;
  const side = returned ? 'returned' : 'sold';
  const estimated = sold?.estimated ?? false;
  const amounts = { side, gross, discounts, net, tax, fee, commission, estimated };
  return `${amountsText(amounts)}; ${costText(sold?.cost ?? {})}`;
}

function meetingsText(book: Book, { date }: Sale, line: LineMoney): string | undefined {
  const taught = book.classes.get(line.line.class ?? '');
  if (!taught) return undefined;
  return enrolmentParts(meetingsOf(taught), date, line)
    .map(({ day, gross, discounts, returns }) => `${day} ${gross + returns} ${discounts}`)
    .join(', ');
}
