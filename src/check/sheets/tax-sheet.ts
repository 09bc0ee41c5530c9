/** Texts to a typed tax sheet, or what is wrong with it; built-in sheets and a studio's own come this way. */
import type { Finding } from '../../problem.ts';
import type { RawMap } from '../../read/raw.ts';
import {
  CATEGORIES,
  INCOME_AMOUNTS,
  LINE_WORDS,
  NET_PROFIT,
  SELLING_AMOUNTS,
  STOCK_AMOUNTS,
  type TaxLine,
  type TaxSheet,
} from '../../reckon/tax/tax-sheet.ts';
import { didYouMean, nearest } from '../../nearest.ts';
import {
  fault,
  fieldOf,
  has,
  ifSaid,
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
import { lawIn, updatesIn, verifiedIn } from './tax-law.ts';

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
  'unverified',
  'cautions',
  'asks',
  'currency',
  'years',
  'year-starts',
  'lines',
  'goods',
  'mileage',
  'payees',
  'lasting',
  'self-employment',
  'estimates',
  'allowance',
  'limit',
  'updates',
];
const LINE_FIELDS = [
  'number',
  'title',
  'takes',
  'takes-off',
  'adds',
  'less',
  'share',
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
    ...ifSaid(root, 'asks', (at) => ({ asks: textsIn(at) })),
    ...ifSaid(root, 'unverified', (at) => ({ unverified: textIn(at) })),
    ...ifSaid(root, 'currency', (at) => ({ currency: textIn(at) })),
    ...ifSaid(root, 'years', (at) => ({ years: textsIn(at) })),
    ...ifSaid(root, 'year-starts', (at) => ({ yearStarts: listIn(at).map(monthDayIn) })),
    ...lawIn(root),
    ...ifSaid(root, 'updates', (at) => ({
      updates: {
        periods: updatesIn(at),
        lines: linesIn(fieldOf(at, 'lines')),
        ...verifiedIn(at),
      },
    })),
  };
  const { categories = [] } = origin;
  checkForm(fieldOf(root, 'lines'), sheet.lines);
  checkLines(fieldOf(root, 'lines'), sheet.lines, categories);
  const told = fieldOf(fieldOf(root, 'updates'), 'lines');
  checkLines(told, sheet.updates?.lines ?? [], categories);
  checkNamed(root, sheet, categories);
  return page.findings.length === 0 ? sheet : page.findings;
}

function linesIn(lines: SheetSpot): TaxLine[] {
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
        ...ifSaid(line, 'share', (at) => ({ share: numberIn(at) })),
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
    ...ifSaid(line, 'part', (at) => ({ part: textIn(at) })),
    ...ifSaid(line, 'itemizes', (at) => ({ itemizes: textIn(at) })),
    ...(bold === 'yes' ? { isBold: true } : {}),
    ...(says ? { says } : {}),
  };
}

/** A form has lines, that of the profit among them. */
function checkForm(at: SheetSpot, lines: readonly TaxLine[]): void {
  if (keysOf(at).length === 0) {
    fault(at, 'lines is missing', 'name each line by its meaning, with its number and title');
  }
  if (!lines.some(({ key }) => key === NET_PROFIT)) {
    fault(at, `there is no line ${NET_PROFIT}`, 'name the line for the profit so');
  }
}

/** Every line that is named is there, no amount is taken twice, and nothing goes in a circle. */
function checkLines(at: SheetSpot, lines: readonly TaxLine[], categories: readonly string[]): void {
  const keys = lines.map(({ key }) => key);
  const amounts = [...AMOUNTS, ...categories];
  for (const { key } of lines) {
    const line = fieldOf(at, key);
    noStrangers(line, { fields: ['adds', 'less', 'itemizes'], noun: 'line', known: keys });
    noStrangers(line, { fields: ['takes', 'takes-off'], noun: 'amount', known: amounts });
    if (isCircle(lines, key, [])) {
      fault(line, 'this line adds up itself, by way of others', 'take it out of adds or less');
    }
  }
  for (const { key, amount } of takenTwice(lines)) {
    fault(fieldOf(at, key), `"${amount}" is taken a second time`, 'leave it on one line');
  }
}

/** Lines and categories that the law of the sheet names are there. */
function checkNamed(root: SheetSpot, { lines }: TaxSheet, categories: readonly string[]): void {
  const keys = lines.map(({ key }) => key);
  const line = { noun: 'line', known: keys };
  noStrangers(fieldOf(root, 'allowance'), { fields: ['income', 'expenses'], ...line });
  noStrangers(fieldOf(root, 'limit'), { fields: ['lines'], ...line });
  const known = [...CATEGORIES, ...categories];
  noStrangers(fieldOf(root, 'payees'), { fields: ['categories'], noun: 'category', known });
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

function takenTwice(lines: readonly TaxLine[]): { key: string; amount: string }[] {
  const all = lines.flatMap(({ key, takes, takesOff }) =>
    [...takes, ...takesOff].map((amount) => ({ key, amount })),
  );
  return all.filter(({ amount }, at) => all.findIndex((each) => each.amount === amount) !== at);
}

function isCircle(lines: readonly TaxLine[], key: string, way: readonly string[]): boolean {
  if (way.includes(key)) return key === way[0];
  const line = lines.find((each) => each.key === key);
  return [...(line?.adds ?? []), ...(line?.less ?? [])].some((next) =>
    isCircle(lines, next, [...way, key]),
  );
}
