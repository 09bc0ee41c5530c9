/** What matters of losses: how much is lost, where most of it, and which firing is out of line. */
import type { Book } from '../../book.ts';
import type { LossGroup } from '../../groups.ts';
import { capitalised, setApart } from '../../in-words.ts';
import { chartFirings, type ChartedFiring } from '../../reckon/kilns/loss-chart.ts';
import {
  isFirstFiring,
  lossRows,
  type LossFact,
  type LossRow,
  type LossStage,
} from '../../reckon/kilns/losses.ts';
import type { Decimal } from '../../number/decimal.ts';
import { LOSS_TITLES } from '../loss-words.ts';
import type { RowAlerts, Table, Verdict } from '../table.ts';
import { shareText, figuresIn, greatest } from './parts.ts';
import { byDate } from '../../text-order.ts';

type LossCells = Pick<Table, 'columns' | 'totals'>;

/** What people call a group. */
function seenName(book: Book, group: string, by: LossGroup): string {
  if (by === 'kiln') return book.kilns.get(group)?.name ?? group;
  if (by === 'recipe') return book.recipes.get(group)?.name ?? group;
  return by === 'cone' || by === 'clay-lot' ? `${by.replace('-', ' ')} ${group}` : group;
}

/** By kind of firing: all that was lost, most of it where, and what of it is out of line. */
export function firingLossVerdict(
  rows: readonly LossRow[],
  { all, facts }: { readonly all: LossRow; readonly facts: readonly LossFact[] },
  cells: LossCells,
): Verdict | undefined {
  if (all.in === 0 || !all.lossRate) return undefined;
  const figures = lossFigures(cells);
  const pieces = setApart(String(all.in));
  if (all.lost === 0) return { sentence: `None of ${pieces} fired pieces was lost.`, figures };
  const fired = rows.filter(({ stage }) => isFirstFiring(stage));
  const [worst, other] = greatest(fired, (one, another) => one.lost - another.lost);
  const most =
    worst && !other && worst.lost < all.lost
      ? `, ${setApart(String(worst.lost))} of them ${stageWords(worst.stage)}`
      : '';
  const out = outWords(chartFirings(facts));
  const lost = `${setApart(String(all.lost))} of ${pieces} fired pieces ${all.lost === 1 ? 'was' : 'were'} lost`;
  return { sentence: `${lost} (${shareText(all.lossRate)})${most}; ${out}.`, figures };
}

/** By cause, the most common fault; by anything else, what is further above its kind of firing than chance takes it. */
export function groupLossVerdict(
  rows: readonly LossRow[],
  { book, by, facts }: { book: Book; by: LossGroup; facts: readonly LossFact[] },
  cells: LossCells,
): Verdict | undefined {
  const named = rows.filter(({ nameless }) => nameless === undefined);
  const sentence =
    by === 'cause'
      ? commonFault(named)
      : standingOut(named, { book, by, usual: ratesOf(lossRows(facts, 'firing')) });
  return sentence === undefined ? undefined : { sentence, figures: lossFigures(cells) };
}

/** What each kind of firing loses. */
type UsualRates = ReadonlyMap<LossStage, Decimal>;

function ratesOf(stages: readonly LossRow[]): UsualRates {
  return new Map(stages.flatMap(({ stage, lossRate }) => (lossRate ? [[stage, lossRate]] : [])));
}

function commonFault(rows: readonly LossRow[]): string | undefined {
  const [worst, other] = greatest(rows, (one, another) => one.faults - another.faults);
  if (!worst?.faultRate || other) return undefined;
  const { group, stage, faults, in: of, faultRate } = worst;
  return `The most common fault is ${group} ${stageWords(stage)}: ${setApart(String(faults))} of ${setApart(String(of))} pieces (${shareText(faultRate)}).`;
}

/** What loses at the least, with 95 % confidence, more than its kind of firing does. */
function standingOut(
  rows: readonly LossRow[],
  { book, by, usual }: { book: Book; by: LossGroup; usual: UsualRates },
): string | undefined {
  if (rows.length < 2) return undefined;
  const above = rows.flatMap((row) => {
    const rate = usual.get(row.stage);
    return rate && row.low?.gt(rate) ? [{ row, rate, beyond: row.low.minus(rate) }] : [];
  });
  const [worst] = greatest(above, (one, another) => one.beyond.cmp(another.beyond));
  if (!worst?.row.lossRate)
    return `No ${LOSS_TITLES[by].toLowerCase()} loses more than is usual for its kind of firing, beyond chance.`;
  const { group, stage, lossRate } = worst.row;
  return `Above the usual is ${seenName(book, group, by)} ${stageWords(stage)}: ${lostWords(worst.row)} (${shareText(lossRate)}, against ${shareText(worst.rate)} of all).`;
}

function lossFigures({ columns, totals }: LossCells): Verdict['figures'] {
  return figuresIn(columns, totals, ['lossRate', 'faultRate', 'lost', 'secondRate']);
}

function stageWords(stage: LossStage): string {
  if (stage === 'making') return 'in making';
  return `in ${stage}${stage.endsWith(' refire') ? 's' : ' firings'}`;
}

/** `the glaze firing of 2026-02-16 is out of line (30 of 68 lost)`; of several the last. */
export function outWords(charted: readonly ChartedFiring[]): string {
  const out = charted.filter(({ outOfLine }) => outOfLine);
  const last = out.toSorted((one, other) => byDate(one.firing, other.firing)).at(-1);
  if (!last) return 'no firing is out of line';
  const { kind, date } = last.firing;
  const which = `the ${kind} firing of ${date}`;
  const lead =
    out.length === 1
      ? `${which} is out of line`
      : `${out.length} firings are out of line, the last ${which}`;
  return `${lead} (${lostWords(last)})`;
}

/** `30 of 68 lost`. */
function lostWords({ lost, in: of }: Pick<ChartedFiring, 'in' | 'lost'>): string {
  return `${setApart(String(lost))} of ${setApart(String(of))} lost`;
}

/** What those that are out of line lost, by their ids. */
export function lostOutOfLine(charted: readonly ChartedFiring[]): ReadonlyMap<string, string> {
  const out = charted.filter((each) => each.outOfLine);
  return new Map(out.map((each) => [each.firing.id, lostWords(each)]));
}

/** Of a control chart: which firing is beyond the limits of its kind. */
export function chartVerdict(charted: readonly ChartedFiring[]): Verdict | undefined {
  if (charted.length === 0) return undefined;
  return { sentence: `${capitalised(outWords(charted))}.`, figures: [] };
}

/** Rows whose word says that they are out of line. */
export function outAlerts(rows: Table['rows']): RowAlerts {
  const of = rows.map(({ outOfLine }) => (outOfLine ? 'now' : undefined));
  return { column: 'outOfLine', of };
}
