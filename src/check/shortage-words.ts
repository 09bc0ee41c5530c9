/** How the book comes to what there is where something runs short, and what ware is called at its stages. */
import type { FiringKind, NamedBook } from '../book.ts';
import { counted } from '../in-words.ts';
import { ZERO, roundTo } from '../number/decimal.ts';
import type { LotStep, StageHistory } from '../reckon/ware/stages.ts';
import { BUCKET_UNIT, type Shortfall } from '../reckon/stock/stock.ts';
import { listed } from './finding.ts';

/** Name of a stage: greenware, what the last firing made of it (bisqueware …), or finished ware. */
export function stageName(fired: readonly FiringKind[], stage: number): string {
  if (stage === 0) return 'greenware';
  if (stage >= fired.length) return 'finished ware';
  const kind = fired[stage - 1] ?? '';
  return kind === 'bisque' ? 'bisqueware' : `${kind}-fired ware`;
}

/** What there is and what was wanted: `24 made − 1 lost 2026-02-22 = 23 greenware, 24 loaded`. */
export function becauseOf(book: NamedBook, shortfall: Shortfall): string {
  const { kind, at, history } = shortfall;
  const [id = '', list = ''] = at.path.map(String);
  if (kind === 'material' || kind === 'bucket') return stockWords(book, shortfall);
  if (history) return onTheWay(shortfall, history);
  const [had, wanted] = [shortfall.had.toString(), shortfall.wanted.toString()];
  if (list === 'gone') return `${had} finished and still there, ${wanted} gone`;
  const record = book.sales.get(id) ?? book.consigned.get(id);
  const place = kind === 'finished' ? 'in the studio' : `at ${record?.channel ?? ''}`;
  const did = list === 'lines' ? 'sold' : list;
  return `${had}${meantWords(shortfall)} ${place}, ${wanted} ${did}${insteadWords(shortfall)}`;
}

/** `seconds with oatmeal of p260301ab`: what a line means, where it says more than a product. */
function meantWords({ meant, had }: Shortfall): string {
  const { lot, glaze, grade } = meant ?? {};
  if (grade !== 'second' && glaze === undefined && lot === undefined) return '';
  const of = lot === undefined ? '' : ` of ${lot}`;
  const pieces = `${grade ?? 'piece'}${had.toString() === '1' ? '' : 's'}`;
  return ` ${pieces}${glaze === undefined ? '' : ` with ${glaze}`}${of}`;
}

/** So many sorts of other pieces are named. */
const MOST_NAMED = 3;

function insteadWords({ instead = [] }: Shortfall): string {
  const named = instead.slice(0, MOST_NAMED).map(({ count, grade, glaze, place }) => {
    const where = place === '' ? 'in the studio' : `at ${place}`;
    return `${counted(count, grade)}${glaze === '' ? '' : ` with ${glaze}`} ${where}`;
  });
  const is = instead[0]?.count === 1 ? 'is' : 'are';
  return named.length === 0 ? '' : `; there ${is} ${listed(named)}`;
}

/** What to write where too few are there: what there is, or the grade or glaze that the others have. */
export function insteadHint(shortfall: Shortfall): string {
  const { had, meant, instead = [] } = shortfall;
  if (had.gt(ZERO)) return `; if the count is a slip, write ${had.toString()}`;
  const other = instead.find(({ place }) => place === meant?.place);
  if (!meant || !other) return '';
  const fields = [
    ...(other.grade === meant.grade ? [] : [`grade: ${other.grade}`]),
    ...(meant.glaze === undefined || other.glaze === meant.glaze || other.glaze.includes(' ')
      ? []
      : [`glaze: ${other.glaze}`]),
  ];
  return fields.length === 0 ? '' : `; if it is a slip, write ${listed(fields)}`;
}

/** What there is of a material or a mixed glaze: `152 lb`. */
export function onHand(book: NamedBook, shortfall: Shortfall): string {
  return stockFigures(book, shortfall)[0];
}

/** Figures rounded half up to as few decimals as tell them apart: two at least, as reports show them. */
function stockFigures(
  { materials }: NamedBook,
  { kind, what, had, wanted }: Shortfall,
): readonly [there: string, needed: string] {
  const unit = kind === 'material' ? (materials.get(what)?.unit ?? '') : BUCKET_UNIT;
  const places = [2, 3, 6].find((each) => !roundTo(had, each).eq(roundTo(wanted, each))) ?? 12;
  const inUnit = (each: Shortfall['had']): string => `${roundTo(each, places).toString()} ${unit}`;
  return [inUnit(had), inUnit(wanted)];
}

function stockWords(book: NamedBook, shortfall: Shortfall): string {
  const [there, needed] = stockFigures(book, shortfall);
  return `${there} on hand, ${needed} needed`;
}

function onTheWay({ kind, what, at, had, wanted }: Shortfall, history: StageHistory): string {
  const { fired, stage, steps, inKiln } = history;
  if (stage === undefined) return `${had.toString()} not finished, ${wanted.toString()} lost`;
  const name = stageName(fired, stage);
  if (kind === 'out-of-turn')
    return `lot ${what} is ${name}, and its product is fired ${fired.join(', then ')}`;
  const did = at.path[1] === 'lost' ? 'lost' : 'loaded';
  const until = inKiln ? `; ${inKiln.count} in the kiln until ${inKiln.until}` : '';
  return `${sumOfSteps(steps)} = ${had.toString()} ${name}, ${wanted.toString()} ${did}${until}`;
}

function sumOfSteps(steps: readonly LotStep[]): string {
  if (steps.length === 0) return '0';
  const words = steps.map((step, index) => {
    const sign = step.change < 0 ? '− ' : index === 0 ? '' : '+ ';
    return `${sign}${Math.abs(step.change)} ${stepWords(step)}`;
  });
  return words.join(' ');
}

function stepWords({ by, kind, day = '' }: LotStep): string {
  const firing = `${kind ?? ''} ${day}`;
  if (by === 'made') return by;
  if (by === 'out') return `out of ${firing}`;
  return by === 'loaded' ? `${by} ${firing}` : `${by} ${day}`;
}
