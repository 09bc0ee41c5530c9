/** What losses are grouped by, in words, and the order that the groups are listed in. */
import type { LossGroup } from '../groups.ts';
import { compareCones, parseCone } from '../number/cone.ts';
import type { Decimal } from '../number/decimal.ts';
import { LOSS_STAGES, type LossName, type LossStage } from '../reckon/kilns/losses.ts';
import { compareTexts } from '../text-order.ts';

/** The head of the column of groups. */
export const LOSS_TITLES: Readonly<Record<LossGroup, string>> = {
  firing: 'Firing',
  kiln: 'Kiln',
  product: 'Product',
  recipe: 'Recipe',
  cone: 'Cone',
  cause: 'Cause',
  maker: 'Maker',
  month: 'Month',
  'clay-lot': 'Clay lot',
};

/** What is missing where a group has no name. */
const LACKING: Readonly<Partial<Record<LossGroup, string>>> = {
  recipe: 'glaze',
  'clay-lot': 'clay lot',
};

/** What a group is called, one without a name too. */
export function nameOfGroup({ group, nameless }: LossName, by: LossGroup): string {
  if (nameless === undefined) return group;
  const names = {
    'for-others': "class and customers' ware",
    unglazed: 'not glazed yet',
    unknown: `no ${LACKING[by] ?? by} on record`,
  };
  return names[nameless];
}

/** The same name where no head above it says what it is: a cone is a mere number. */
export function loneGroup(group: string, by: LossGroup): string {
  return by === 'cone' && parseCone(group) !== undefined ? `Cone ${group}` : group;
}

/** A group at one stage, with its rates where the worst is to come first. */
interface ListedGroup {
  readonly group: string;
  readonly stage: LossStage;
  readonly lossRate?: Decimal | undefined;
  readonly faultRate?: Decimal | undefined;
}

/** By stage in the order of the work; then cones and months in their order, all else worst first. */
export function inOrderOfGroups(one: ListedGroup, other: ListedGroup, by: LossGroup): number {
  const stage = LOSS_STAGES.indexOf(one.stage) - LOSS_STAGES.indexOf(other.stage);
  if (stage !== 0) return stage;
  if (by === 'month') return compareTexts(one.group, other.group);
  if (by === 'cone') return compareConeGroups(one.group, other.group);
  const rate = by === 'cause' ? 'faultRate' : 'lossRate';
  const worse = (other[rate] && one[rate]?.cmp(other[rate])) ?? 0;
  return worse === 0 ? compareTexts(one.group, other.group) : -worse;
}

function compareConeGroups(one: string, other: string): number {
  const [a, b] = [parseCone(one), parseCone(other)];
  if (a === undefined || b === undefined) return compareTexts(one, other);
  return compareCones(a, b);
}
