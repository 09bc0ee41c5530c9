/** Texts to a typed tax sheet, or what is wrong with it; built-in sheets and a studio's own come this way. */
import type { Finding } from '../../problem.ts';
import type { RawMap } from '../../read/raw.ts';
import {
  CATEGORIES,
  INCOME_AMOUNTS,
  LINE_WORDS,
  NET_PROFIT,
  SELF_EMPLOYMENT_LINES,
  SELLING_AMOUNTS,
  STOCK_AMOUNTS,
  type DuePeriod,
  type EstimatePeriod,
  type MileageRate,
  type SelfEmployment,
  type TaxLine,
  type TaxSheet,
} from '../../reckon/tax/tax-sheet.ts';
import { keyed } from '../../grouping.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import {
  fault,
  fieldOf,
  has,
  isRecord,
  keysOf,
  listIn,
  monthDayIn,
  numberIn,
  textIn,
  textsIn,
  wordIn,
  type Page,
  type SheetSpot,
} from './sheet-page.ts';

/** Where a sheet comes from. */
interface SheetOrigin {
  /** Its id, or its path in the studio. */
  readonly id: string;
  readonly file: string;
  /** Spending categories of the studio's own, which lines may take too. */
  readonly categories?: readonly string[];
}

const SHEET_FIELDS = [
  'title',
  'source',
  'cautions',
  'asks',
  'currency',
  'years',
  'year-starts',
  'lines',
  'mileage',
  'self-employment',
  'estimates',
  'updates',
];
const LINE_FIELDS = [
  'number',
  'title',
  'takes',
  'takes-off',
  'adds',
  'less',
  'part',
  'bold',
  'says',
  'itemizes',
];
const AMOUNTS = [...INCOME_AMOUNTS, ...SELLING_AMOUNTS, ...STOCK_AMOUNTS, ...CATEGORIES];

/** The sheet, or everything that is wrong with it. Never throws. */
export function typeTaxSheet(raw: RawMap, origin: SheetOrigin): TaxSheet | readonly Finding[] {
  const page: Page = { file: origin.file, findings: [] };
  const root: SheetSpot = { page, raw, path: [] };
  isRecord(root, SHEET_FIELDS);
  const sheet: TaxSheet = {
    id: origin.id,
    title: textIn(fieldOf(root, 'title')),
    source: has(root, 'source') ? textIn(fieldOf(root, 'source')) : '',
    cautions: textsIn(fieldOf(root, 'cautions')),
    lines: linesIn(fieldOf(root, 'lines')),
    ...optional(root, 'asks', (at) => ({ asks: textsIn(at) })),
    ...optional(root, 'currency', (at) => ({ currency: textIn(at) })),
    ...optional(root, 'years', (at) => ({ years: textsIn(at) })),
    ...optional(root, 'year-starts', (at) => ({ yearStarts: monthDayIn(at) })),
    ...optional(root, 'mileage', (at) => ({ mileage: mileageIn(at) })),
    ...optional(root, 'self-employment', (at) => ({ selfEmployment: selfIn(at) })),
    ...optional(root, 'estimates', (at) => ({ estimates: estimatesIn(at) })),
    ...optional(root, 'updates', (at) => ({ updates: updatesIn(at) })),
  };
  checkLines(fieldOf(root, 'lines'), sheet, origin.categories ?? []);
  return page.findings.length === 0 ? sheet : page.findings;
}

function optional(
  root: SheetSpot,
  key: string,
  read: (at: SheetSpot) => Partial<TaxSheet>,
): Partial<TaxSheet> {
  return has(root, key) ? read(fieldOf(root, key)) : {};
}

function linesIn(lines: SheetSpot): TaxLine[] {
  if (keysOf(lines).length === 0) {
    fault(lines, 'lines is missing', 'name each line by its meaning, with its number and title');
  }
  return keysOf(lines).flatMap((key) => {
    const line = fieldOf(lines, key);
    if (!isRecord(line, LINE_FIELDS)) return [];
    return [
      {
        key,
        number: textIn(fieldOf(line, 'number')),
        title: textIn(fieldOf(line, 'title')),
        takes: textsIn(fieldOf(line, 'takes')),
        takesOff: textsIn(fieldOf(line, 'takes-off')),
        adds: textsIn(fieldOf(line, 'adds')),
        less: textsIn(fieldOf(line, 'less')),
        ...onItsForm(line),
      },
    ];
  });
}

/** How the line stands on its form. */
function onItsForm(line: SheetSpot): Pick<TaxLine, 'part' | 'isBold' | 'says' | 'itemizes'> {
  const says = has(line, 'says') ? wordIn(fieldOf(line, 'says'), LINE_WORDS) : undefined;
  const bold = has(line, 'bold') ? wordIn(fieldOf(line, 'bold'), ['yes', 'no']) : undefined;
  return {
    ...(has(line, 'part') ? { part: textIn(fieldOf(line, 'part')) } : {}),
    ...(has(line, 'itemizes') ? { itemizes: textIn(fieldOf(line, 'itemizes')) } : {}),
    ...(bold === 'yes' ? { isBold: true } : {}),
    ...(says ? { says } : {}),
  };
}

/** Every line that is named is there, no amount is taken twice, and nothing goes in a circle. */
function checkLines(lines: SheetSpot, sheet: TaxSheet, categories: readonly string[]): void {
  const keys = sheet.lines.map(({ key }) => key);
  const amounts = [...AMOUNTS, ...categories];
  for (const line of sheet.lines) {
    const at = fieldOf(lines, line.key);
    noStrangers(at, { fields: ['adds', 'less', 'itemizes'], noun: 'line', known: keys });
    noStrangers(at, { fields: ['takes', 'takes-off'], noun: 'amount', known: amounts });
    if (isCircle(sheet, line.key, [])) {
      fault(at, 'this line adds up itself, by way of others', 'take it out of adds or less');
    }
  }
  for (const { key, amount } of takenTwice(sheet)) {
    fault(fieldOf(lines, key), `"${amount}" is taken a second time`, 'leave it on one line');
  }
  if (!keys.includes(NET_PROFIT)) {
    fault(lines, `there is no line ${NET_PROFIT}`, 'name the line for the profit so');
  }
}

interface NamedSheetFile {
  /** The fields of a line that name something. */
  readonly fields: readonly string[];
  readonly noun: string;
  readonly known: readonly string[];
}

function noStrangers(line: SheetSpot, { fields, noun, known }: NamedSheetFile): void {
  const named = fields.flatMap((field) => listIn(fieldOf(line, field)));
  for (const each of named) {
    const { raw } = each;
    if (typeof raw !== 'string' || known.includes(raw)) continue;
    const near = nearest(raw, known);
    const hint = didYouMean(near, `there are ${known.join(', ')}`, '');
    fault(each, `there is no ${noun} "${raw}"`, hint);
  }
}

function takenTwice({ lines }: TaxSheet): { key: string; amount: string }[] {
  const all = lines.flatMap(({ key, takes, takesOff }) =>
    [...takes, ...takesOff].map((amount) => ({ key, amount })),
  );
  return all.filter(({ amount }, at) => all.findIndex((each) => each.amount === amount) !== at);
}

function isCircle(sheet: TaxSheet, key: string, way: readonly string[]): boolean {
  if (way.includes(key)) return key === way[0];
  const line = sheet.lines.find((each) => each.key === key);
  return [...(line?.adds ?? []), ...(line?.less ?? [])].some((next) =>
    isCircle(sheet, next, [...way, key]),
  );
}

function mileageIn(at: SheetSpot): NonNullable<TaxSheet['mileage']> {
  isRecord(at, ['unit', 'rates', 'source']);
  const unit = textIn(fieldOf(at, 'unit'));
  if (unit !== 'mi' && unit !== 'km')
    fault(fieldOf(at, 'unit'), `unit is "${unit}"`, 'it is mi or km');
  const source = has(at, 'source') ? textIn(fieldOf(at, 'source')) : '';
  const rates = listIn(fieldOf(at, 'rates')).map(rateIn);
  if (rates.length === 0) fault(at, 'rates is missing', 'write rates: [{ rate: 0.45 }]');
  return { unit: unit === 'km' ? 'km' : 'mi', rates, source };
}

function rateIn(at: SheetSpot): MileageRate {
  isRecord(at, ['up-to', 'rate']);
  const rate = numberIn(fieldOf(at, 'rate'));
  return has(at, 'up-to') ? { upTo: numberIn(fieldOf(at, 'up-to')), rate } : { rate };
}

function selfIn(at: SheetSpot): SelfEmployment {
  isRecord(at, ['share', 'social-security', 'medicare', 'wage-base', 'least', 'lines', 'source']);
  const lines = fieldOf(at, 'lines');
  const isForm = has(at, 'lines') && isRecord(lines, SELF_EMPLOYMENT_LINES);
  return {
    share: numberIn(fieldOf(at, 'share')),
    socialSecurity: numberIn(fieldOf(at, 'social-security')),
    medicare: numberIn(fieldOf(at, 'medicare')),
    wageBase: numberIn(fieldOf(at, 'wage-base')),
    least: numberIn(fieldOf(at, 'least')),
    ...(isForm
      ? { lines: keyed(SELF_EMPLOYMENT_LINES, (key) => textIn(fieldOf(lines, key))) }
      : {}),
  };
}

function estimatesIn(at: SheetSpot): EstimatePeriod[] {
  return periodsIn(at).map((period) => {
    isRecord(period, ['to', 'due', 'factor']);
    return { ...dueIn(period), factor: numberIn(fieldOf(period, 'factor')) };
  });
}

function updatesIn(at: SheetSpot): DuePeriod[] {
  return periodsIn(at).map((period) => {
    isRecord(period, ['to', 'due']);
    return dueIn(period);
  });
}

function periodsIn(at: SheetSpot): SheetSpot[] {
  return isRecord(at, ['periods', 'source']) ? listIn(fieldOf(at, 'periods')) : [];
}

function dueIn(at: SheetSpot): DuePeriod {
  return { to: monthDayIn(fieldOf(at, 'to')), due: monthDayIn(fieldOf(at, 'due')) };
}
