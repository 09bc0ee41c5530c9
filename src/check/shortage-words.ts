/** How the book comes to what there is where something runs short, and what ware is called at its stages. */
import type { FiringKind, NamedBook } from '../book.ts';
import { roundTo } from '../number/decimal.ts';
import type { LotStep, StageHistory } from '../reckon/ware/stages.ts';
import { BUCKET_UNIT, type Shortfall } from '../reckon/stock/stock.ts';

/** Name of a stage: greenware, what the last firing made of it (bisqueware …), or finished ware. */
export function stageName(fired: readonly FiringKind[], stage: number): string {
  if (stage === 0) return 'greenware';
  if (stage >= fired.length) return 'finished ware';
  const kind = fired[stage - 1] ?? '';
  return kind === 'bisque' ? 'bisqueware' : `${kind}-fired ware`;
}

/** What there is and what was wanted: `24 made − 1 lost 2026-02-22 = 23 greenware, 24 loaded`. */
export function becauseOf(book: NamedBook, shortfall: Shortfall): string {
  const { kind, what, at, history } = shortfall;
  const [id = '', list = ''] = at.path.map(String);
  if (kind === 'material' || kind === 'bucket') return stockWords(book, shortfall);
  if (history) return onTheWay(shortfall, history);
  const [had, wanted] = [shortfall.had.toString(), shortfall.wanted.toString()];
  if (list === 'gone') return `${had} finished and still there, ${wanted} gone`;
  const record = book.sales.get(id) ?? book.consigned.get(id);
  const place = kind === 'finished' ? 'in the studio' : `at ${record?.channel ?? ''}`;
  return list === 'lines'
    ? `${had} ${place}, ${wanted} sold`
    : `${had} of ${what} ${place}, ${wanted} ${list}`;
}

/** Figures rounded half up to as few decimals as tell them apart: two at least, as reports show them. */
function stockWords({ materials }: NamedBook, { kind, what, had, wanted }: Shortfall): string {
  const unit = kind === 'material' ? (materials.get(what)?.unit ?? '') : BUCKET_UNIT;
  const places = [2, 3, 6].find((each) => !roundTo(had, each).eq(roundTo(wanted, each))) ?? 12;
  const [there, drawn] = [had, wanted].map((each) => roundTo(each, places).toString());
  return `${there} ${unit} on hand, ${drawn} ${unit} drawn`;
}

function onTheWay({ kind, what, at, had, wanted }: Shortfall, history: StageHistory): string {
  const { fired, stage, steps, inKiln } = history;
  if (stage === undefined) return `${had.toString()} not finished, ${wanted.toString()} lost`;
  const name = stageName(fired, stage);
  if (kind === 'out-of-turn')
    return `lot ${what} stands as ${name}, and its product is fired ${fired.join(', then ')}`;
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
