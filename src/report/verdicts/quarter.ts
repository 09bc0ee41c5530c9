/** What matters of a tax summary: the profit, what to set aside by when, what differs from what was filed. */
import type { Day } from '../../book.ts';
import { counted, sentences } from '../../in-words.ts';
import { NO_MONEY, less, type Money } from '../../number/money.ts';
import type { Estimate } from '../../reckon/tax/estimated-tax.ts';
import { movedLines, type FiledPeriod } from '../../reckon/tax/filed.ts';
import { NET_PROFIT } from '../../reckon/tax/tax-sheet.ts';
import { amountText } from '../day/day-words.ts';
import type { Alert, Row, RowAlerts, Verdict, VerdictFigure } from '../table.ts';

interface QuarterShown {
  readonly rows: readonly Row[];
  readonly estimates: readonly Estimate[];
  readonly filed: readonly FiledPeriod[];
  readonly asOf: Day;
  readonly minorDigits: number;
}

/** Every amount is a row's; whether it is right for a filing is for others to say, and the sentence leaves it to them. */
export function quarterVerdict(shown: QuarterShown): Verdict {
  const { rows, filed, minorDigits } = shown;
  const profit = rowAmount(rows, `line.${NET_PROFIT}`);
  const payment = paymentOf(shown);
  const tax = salesTaxOf(rows);
  const amount = (sum: Money): string => amountText(sum, minorDigits);
  const said = sentences(
    profit !== undefined && `net profit ${amount(profit)}`,
    ...filed.map(filedWords),
    payment && filed.length === 0 && paymentWords(payment, amount),
    tax && `sales tax due for the period ${amount(tax)}`,
  );
  const figures: (readonly [string, Money | undefined])[] = [
    ['Net profit', profit],
    ['Estimated tax', payment?.sum],
    ['Sales tax', tax],
  ];
  return {
    sentence: `For a preparer to check: ${said.join('; ')}.`,
    figures: figures.flatMap(([label, sum]) => (sum === undefined ? [] : moneyFigure(label, sum))),
  };
}

function moneyFigure(label: string, cell: Money): VerdictFigure[] {
  return [{ label, column: { type: 'money' }, cell }];
}

function rowAmount(rows: readonly Row[], item: string): Money | undefined {
  const amount = rows.find((row) => row['item'] === item)?.['amount'];
  return typeof amount === 'bigint' ? amount : undefined;
}

interface NextPayment {
  readonly sum: Money;
  readonly due: Day;
  readonly isOver: boolean;
  /** Whether income tax is in it. */
  readonly isWhole: boolean;
}

/** The next payment of estimated tax that is still to be made, else the last one; undefined of none or nothing. */
function paymentOf({ estimates, asOf }: QuarterShown): NextPayment | undefined {
  const found = estimates.find(({ due }) => due >= asOf) ?? estimates.at(-1);
  if (!found || found.asked.inAll === found.asked.before) return undefined;
  const { due, asked, annualised } = found;
  const isWhole = annualised.incomeTax !== undefined;
  return { sum: less(asked.inAll, asked.before), due, isOver: due < asOf, isWhole };
}

function paymentWords(
  { sum, due, isOver, isWhole }: NextPayment,
  amount: (sum: Money) => string,
): string {
  const what = isWhole ? 'estimated tax' : 'estimated self-employment tax';
  return isOver
    ? `${amount(sum)} of ${what} was due on ${due}`
    : `set ${amount(sum)} aside for ${what} by ${due}`;
}

/** What the only sales tax return asks for; undefined where there is none, several, or nothing to pay. */
function salesTaxOf(rows: readonly Row[]): Money | undefined {
  const returns = rows.filter(({ item }) => /^return\..*\.due$/.test(String(item)));
  const due = returns.length === 1 ? returns[0]?.['amount'] : undefined;
  return typeof due === 'bigint' && due > NO_MONEY ? due : undefined;
}

function filedWords(filed: FiledPeriod): string {
  const moved = movedLines(filed).length;
  const verb = moved === 1 ? 'differs' : 'differ';
  return moved === 0
    ? `filed on ${filed.filing.date}, and no line has changed since`
    : `${counted(moved, 'line')} ${verb} from what was filed on ${filed.filing.date}`;
}

/** What is to be checked before sending, and lines that are no longer what was filed. */
export function quarterAlerts(rows: readonly Row[]): RowAlerts {
  const alertOf = ({ item, difference }: Row): Alert | undefined => {
    if (typeof difference === 'bigint' && difference !== NO_MONEY) return 'now';
    return String(item).startsWith('missing.') ? 'soon' : undefined;
  };
  return { column: 'name', of: rows.map(alertOf) };
}
