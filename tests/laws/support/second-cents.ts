/** What a book comes to by the second reckoning, in the shape that is compared. */
import { costOf, add, type Cost } from '../../second-reckoning/costs.ts';
import { times, type Fraction } from '../../second-reckoning/fraction.ts';
import type { SaleResult, SecondReckoning } from '../../second-reckoning/result.ts';
import { sizeOf } from '../../second-reckoning/units.ts';
import { accountTexts, amountsText, costText, type Cents } from './cents.ts';

type Texts = Record<string, string>;

type SaleLine = SaleResult['lines'][number];

/** By the second reckoning. */
export function secondCents(again: SecondReckoning): Cents {
  return {
    ...stockCents(again),
    ...firingCents(again),
    ...wareCents(again),
    accounts: accountTexts(
      again.went.map((one) => ({ ...one, lot: again.lots.has(one.what) ? one.what : '' })),
    ),
    ...saleCents(again),
    missing: missingCents(again),
  };
}

function stockCents({ pools: all }: SecondReckoning): Pick<Cents, 'pools' | 'movements'> {
  const pools: Texts = {};
  const movements: Texts = {};
  for (const [id, { unit, quantity, value, movements: list }] of all) {
    const inBase = (amount: Fraction): string => {
      const { top, bottom } = times(amount, sizeOf(unit));
      return `${top}/${bottom}`;
    };
    pools[id] = amountsText({ quantity: inBase(quantity), value });
    if (list.length > 0)
      movements[id] = list
        .map((one) => {
          const reason = one.reason === 'mixed-in' ? 'into-mix' : one.reason;
          const { day, record, value: moved } = one;
          return `${amountsText({ [day]: record, [reason]: inBase(one.quantity), value: moved })}\n`;
        })
        .join('');
  }
  return { pools, movements };
}

function firingCents({ firings: all }: SecondReckoning): Pick<Cents, 'firings' | 'loads'> {
  const firings: Texts = {};
  const loads: Texts = {};
  for (const [id, firing] of all) {
    const { energy, energyKnown: known, energyEstimated: estimated } = firing;
    const { fuel, wear, supplies, labour } = firing;
    firings[id] = amountsText({ energy, known, estimated, fuel, wear, supplies, labour });
    firing.lines.forEach((line, at) => (loads[`${id} ${at}`] = costText(line)));
  }
  return { firings, loads };
}

function wareCents({ lots: all }: SecondReckoning): Pick<Cents, 'lots' | 'holdings'> {
  const lots: Texts = {};
  const holdings: Texts = {};
  for (const [id, { making, stages, inKilns, finished, holdings: held }] of all) {
    lots[`${id} making`] = costText(making);
    lots[`${id} finished`] = `${finished.count}: ${costText(finished.cost)}`;
    stages.forEach(({ count, cost }, stage) => {
      if (count !== 0 || costText(cost) !== '')
        lots[`${id} stage ${stage}`] = `${count}: ${costText(cost)}`;
    });
    inKilns.forEach(({ firing, count, cost }, at) => {
      lots[`${id} kiln ${at}`] = `${firing}, ${count}: ${costText(cost)}`;
    });
    for (const { grade, place, count, cost } of held)
      holdings[`${id} ${grade} ${place}`] = `${count}: ${costText(cost)}`;
  }
  return { lots, holdings };
}

function saleCents({ sales: all }: SecondReckoning): Pick<Cents, 'lines' | 'sales' | 'meetings'> {
  const lines: Texts = {};
  const sales: Texts = {};
  const meetings: Texts = {};
  for (const [id, sale] of all) {
    const { fee, commission, shipping, shippingTax } = sale;
    const within = sale.lines.map(({ side, tax }) => (side === 'sold' ? tax : -tax));
    const tax = within.reduce((sum, one) => sum + one, sale.tax + shippingTax);
    sales[id] = amountsText({ shipping: shipping - shippingTax, fee, commission, tax });
    sale.lines.forEach((line, at) => {
      lines[`${id} ${at}`] = lineText(line);
      if (line.meetings.length > 0)
        meetings[`${id} ${at}`] = line.meetings
          .map(({ day, gross, discount }) => `${day} ${gross} ${discount}`)
          .join(', ');
    });
  }
  return { lines, sales, meetings };
}

function missingCents({ owed: all }: SecondReckoning): Texts {
  const lines = [...all].flatMap(([id, owed]) => owed.map((one) => ({ id, ...one })));
  const texts: Texts = {};
  const put = (key: string, day: string | undefined, amount: bigint): void => {
    if (day !== undefined && amount !== 0n) texts[key] = `${texts[key] ?? ''}${day} ${amount}\n`;
  };
  for (const { id, since, amount, paid } of lines) {
    put(`${id} accrual`, since, amount);
    put(`${id} cash`, paid, amount);
  }
  return texts;
}

function lineText(line: SaleLine): string {
  const { side, gross, net, tax, fee, commission, estimated } = line;
  const discounts = gross - net;
  const amounts = { side, gross, discounts, net, tax, fee, commission, estimated };
  return `${amountsText(amounts)}; ${costText(signedCost(line))}`;
}

/** What came back is negative. */
function signedCost({ side, cost, beyond }: Pick<SaleLine, 'side' | 'cost' | 'beyond'>): Cost {
  const whole = add(cost, beyond);
  return side === 'sold' ? whole : costOf((one) => -whole[one]);
}
