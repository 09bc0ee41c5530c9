/** What a change of a definition has to be agreed to for: figures of a closed period, and past mixes. */
import { listed } from '../../check/finding.ts';
import { changingFields } from '../../entry/amend-from.ts';
import type { AmendPlan } from '../../entry/amend.ts';
import { mixesMoved } from '../../entry/recipes/mixed-before.ts';
import { counted } from '../../in-words.ts';
import { addDays } from '../../number/date.ts';
import { movesFigures } from '../../review/closed/closed.ts';
import type { OptionsOf } from '../catalogue.ts';
import type { ChangeOptions } from '../options.ts';
import type { Scene } from './change.ts';
import { shellQuoted } from './undo.ts';

/** Why a change is not made yet, and what could be asked instead. */
export interface LackingConsent {
  readonly refused: string;
  readonly reason?: string;
}

/** The options that agree to it. */
export type ConsentOptions = ChangeOptions &
  Partial<Pick<OptionsOf<'amend'>, 'evenIfClosed' | 'evenIfMixed'>>;

/** What has to be agreed to and was not; undefined for nothing. */
export function consentLacking(
  scene: Scene<ConsentOptions>,
  plan: AmendPlan,
): LackingConsent | undefined {
  const { evenIfClosed, evenIfMixed } = scene.asked.options;
  const closed = evenIfClosed ? undefined : closedBy(scene, plan);
  if (closed !== undefined) return { refused: closed };
  return evenIfMixed ? undefined : mixedBefore(plan);
}

/** Why a definition can't be amended so: figures of the closed period would be others. */
function closedBy({ asked }: Scene, { record, sides }: AmendPlan): string | undefined {
  const { before, after } = sides;
  const { closedThrough } = before.studio;
  const fields = changingFields(record.kind);
  if (closedThrough === undefined || fields.length === 0) return undefined;
  if (!movesFigures(before, after, closedThrough)) return undefined;
  const name = record.id === '' ? record.file : record.id;
  const words = asked.words.slice(1).map(shellQuoted).join(' ');
  const type = `saggar amend ${name} ${words} --from ${addDays(closedThrough, 1)}`;
  return (
    `figures of the period closed through ${closedThrough} would change. ` +
    `To change it from a day on, type ${type}; ` +
    'to change those figures too, add --even-if-closed'
  );
}

/** So many mixes are named. */
const MOST_MIXES = 3;

function mixedBefore({ record: { kind, id }, sides }: AmendPlan): LackingConsent | undefined {
  const mixes = kind === 'recipes' ? mixesMoved(sides, id) : [];
  if (mixes.length === 0) return undefined;
  const named = mixes.slice(0, MOST_MIXES).map((mixed) => `${mixed.id} of ${mixed.date}`);
  const left = mixes.length - named.length;
  const all = listed(left > 0 ? [...named, counted(left, 'other mix', 'other mixes')] : named);
  const reason = `This changes what ${all} ${mixes.length === 1 ? 'was' : 'were'} made of, and with it past stock and costs`;
  return {
    reason,
    refused:
      `it would change what ${all} ${mixes.length === 1 ? 'was' : 'were'} made of. ` +
      `For a version from a later day on, type saggar revise ${id} … --from DAY; ` +
      'if they were really made so, add --even-if-mixed',
  };
}
