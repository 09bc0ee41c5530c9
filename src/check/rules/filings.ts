/** A filing is of a period that was over, by a sheet and lines that are there, and still what the book comes to. */
import type { Book, Filed } from '../../book.ts';
import { counted } from '../../in-words.ts';
import { moneyText } from '../../number/money.ts';
import type { Finding } from '../../problem.ts';
import { BUILT_IN_SHEETS, isSheetFile, type OwnSheet } from '../../read/tax-sheet.ts';
import { digitsOf } from '../../reckon/booked.ts';
import {
  filedPeriods,
  lineNamed,
  movedLines,
  type FiledPeriod,
  type SheetOf,
} from '../../reckon/tax/filed.ts';
import { flow } from '../../reckon/flow.ts';
import { periodFiled, quarterOn, taxPeriod, yearOfPeriod } from '../../reckon/tax/tax-period.ts';
import { addDays } from '../../number/date.ts';
import type { TaxSheet } from '../../reckon/tax/tax-sheet.ts';
import { findEach, keySpot, spot, twice, type RuleFinding, type Say } from '../finding.ts';
import { isSheet, namedSheet, sheetsOfFilings } from '../sheets/named-sheet.ts';
import { didYouMean, nearest } from '../../nearest.ts';

const FILING_UNFIT = {
  name: 'filing-unfit',
  severity: 'error',
  about:
    'A filing is of a period that was not over, of a sheet or line that is nowhere, or filed twice on one day.',
} as const;

/** What filings are looked at by. */
interface FilingScene {
  readonly day: string;
  /** The studio's own sheets that were read. */
  readonly own: readonly OwnSheet[];
  /** Paths of the files that hold no records: one of them may be meant. */
  readonly files: readonly string[];
  /** The sheets that filings name, each looked up once. */
  readonly sheetOf: SheetOf;
}

/** All that is wrong with filings by themselves. */
function unfitFilings(book: Book, scene: FilingScene): readonly RuleFinding[] {
  const { sheetOf } = scene;
  const found = findEach(book.filed, (filing, say) => {
    lookAtPeriod(book, filing, say);
    const sheet = sheetOf(filing);
    if (sheet) lookAtLines(filing, sheet, say);
    else lookForSheet(book, filing, { scene, say });
  });
  return [...found, ...filedTwice(book, sheetOf)];
}

/** What is wrong with sheets that only filings name. */
function faultsInFiledSheets(book: Book, scene: FilingScene): readonly Finding[] {
  const named = new Map([...book.filed.values()].map((filing) => [filing.sheet, filing]));
  named.delete(book.studio.taxSheet ?? '');
  return [...named.values()].flatMap(({ sheet, period }) => {
    const own = scene.own.find(({ file }) => file === sheet);
    if (!own || ('unread' in own && !own.unread.isThere)) return [];
    const found = lookUp(book, { sheet, period }, scene);
    return found && !isSheet(found) ? found : [];
  });
}

function lookUp(
  { studio }: Book,
  { sheet, period }: Pick<Filed, 'sheet' | 'period'>,
  { own }: FilingScene,
): ReturnType<typeof namedSheet> {
  return namedSheet(sheet, { studio, own, year: yearOfPeriod(period) });
}

function lookAtPeriod(book: Book, filing: Filed, say: Say): void {
  const { period, date } = filing;
  const meant = taxPeriod(period, book.studio.yearStarts);
  if (!meant || periodFiled(book, filing)) return;
  say({
    at: spot(filing, 'period'),
    message: `${period} runs to ${meant.to}, and was not over on ${date}, the day it was filed`,
    hint: `write ${lastOver(book, filing)} if it was the one before, or correct the date`,
  });
}

/** The last period of the same length that was over on the day of a filing. */
function lastOver({ studio }: Book, { date, period }: Filed): string {
  const quarter = quarterOn(date, studio.yearStarts);
  if (!quarter) return period;
  if (!/q/i.test(period)) return String(Number(quarter.year) - 1);
  return quarterOn(addDays(quarter.from, -1), studio.yearStarts)?.name ?? period;
}

function lookForSheet(
  book: Book,
  filing: Filed,
  { scene, say }: { readonly scene: FilingScene; readonly say: Say },
): void {
  const { sheet } = filing;
  const at = spot(filing, 'sheet');
  const own = scene.own.find(({ file }) => file === sheet);
  if (isSheetFile(sheet)) {
    // A file with faults is told at its own place.
    if (!own || !('unread' in own) || own.unread.isThere) return;
    const [first] = own.unread.findings;
    const near = nearest(sheet, scene.files);
    const message = `the tax sheet ${sheet} can't be used: ${first?.message ?? ''}`;
    say({ at, message, hint: didYouMean(near, first?.hint ?? '', '') });
    return;
  }
  if (lookUp(book, filing, scene)) return;
  const near = nearest(sheet, [...BUILT_IN_SHEETS, ...scene.files]);
  const all = `there are ${BUILT_IN_SHEETS.join(', ')}, and any .yaml or .json file in the studio`;
  say({ at, message: `there is no tax sheet "${sheet}"`, hint: didYouMean(near, all, '') });
}

function lookAtLines(filing: Filed, sheet: TaxSheet, say: Say): void {
  const taken = new Map<string, string>();
  for (const name of Object.keys(filing.lines)) {
    const at = keySpot(filing, 'lines', name);
    const line = lineNamed(sheet, name);
    const before = line && taken.get(line.key);
    if (line) taken.set(line.key, name);
    if (!line) say({ at, ...strangeLine(sheet, name) });
    else if (before !== undefined)
      say({
        at,
        message: `line ${name} is line ${before}, which has an amount already`,
        hint: 'take this one out, or the other, whichever is not meant',
      });
  }
}

function strangeLine(sheet: TaxSheet, name: string): Pick<RuleFinding, 'message' | 'hint'> {
  const near = nearest(
    name,
    sheet.lines.flatMap(({ key, number }) => [number, key]),
  );
  const line = near === undefined ? undefined : lineNamed(sheet, near);
  const first = sheet.lines[0];
  const such = `name a line of the sheet, such as ${first?.number ?? ''} (${first?.title ?? ''})`;
  return {
    message: `the sheet ${sheet.id} has no line ${name}`,
    hint: line ? `did you mean ${near ?? ''} (${line.title})?` : such,
  };
}

/** Of two filings of one day nobody can say which one counts. */
function filedTwice(book: Book, sheetOf: SheetOf): RuleFinding[] {
  const ofOneDay = (filing: Filed): string =>
    [filing.period, sheetOf(filing)?.id ?? filing.sheet, filing.date].join(' ');
  return twice(book.filed.values(), ofOneDay).map(([filing, other]) => ({
    at: keySpot(filing),
    message: `${other.id} was filed on ${filing.date} for ${filing.period}, too`,
    hint: 'give the later filing the day on which it was sent; of one filing keep one record',
    related: [{ at: keySpot(other), message: `${other.id} itself` }],
  }));
}

export const FILED_DIFFERS = {
  name: 'filed-differs',
  severity: 'warning',
  about: 'The book no longer comes to what was filed for a period.',
} as const;

/** One finding for each filing that differs, at the line of the net profit where that is among them. */
function filedDiffers(book: Book, scene: FilingScene): readonly RuleFinding[] {
  const periods = filedPeriods(book, flow(book, scene.day), scene.sheetOf);
  return periods.flatMap((each) => differing(book, each));
}

function differing(book: Book, filed: FiledPeriod): RuleFinding[] {
  const [first, ...others] = movedLines(filed);
  if (!first) return [];
  const { filing, period } = filed;
  const digits = digitsOf(book);
  const [was, is] = [moneyText(first.filed, digits), moneyText(first.now, digits)];
  const more =
    others.length === 0
      ? ''
      : `; so ${others.length === 1 ? 'does' : 'do'} ${counted(others.length, 'other line')}`;
  return [
    {
      at: spot(filing, 'lines', first.name),
      message: `line ${first.name} of ${period.name} differs: ${was} was filed, ${is} is what the book has now${more}`,
      hint: `see what changed with saggar quarter ${period.name} --sheet ${filed.sheet.id} and saggar review, and ask whoever files for you whether to correct the filing`,
    },
  ];
}

/** What is wrong with the filings of a book, and which of them are no longer what the book comes to. */
export function filingFindings(
  book: Book,
  looked: Omit<FilingScene, 'sheetOf'>,
): readonly Finding[] {
  if (book.filed.size === 0) return [];
  const scene = { ...looked, sheetOf: sheetsOfFilings(book, looked.own) };
  return [
    ...ofRule(FILING_UNFIT, unfitFilings(book, scene)),
    ...faultsInFiledSheets(book, scene),
    ...ofRule(FILED_DIFFERS, filedDiffers(book, scene)),
  ];
}

function ofRule(
  { name, severity }: (typeof FILING_RULES)[number],
  found: readonly RuleFinding[],
): Finding[] {
  return found.map((each) => ({ rule: name, severity, ...each }));
}

/** The rules on filings: they look at tax sheets beside the book, so they are not run with the others. */
export const FILING_RULES = [FILING_UNFIT, FILED_DIFFERS];
