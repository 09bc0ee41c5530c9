/** What changed from one version of a recipe to the next, material by material. */
import type { Recipe, RecipeVersion } from '../../book.ts';
import { ZERO, decimal, portion, sum, type Decimal } from '../../number/decimal.ts';
import { compareTexts } from '../../text-order.ts';

/** One material before and after; undefined where it is not in. */
export interface MaterialChange {
  readonly material: string;
  /** Parts of the base, or a fraction of it that comes on top. */
  readonly part: 'base' | 'addition';
  readonly before: Decimal | undefined;
  readonly after: Decimal | undefined;
}

/** A version, the one before it, and what is not the same in the two; of the first, all that is in it. */
export interface RevisedVersion {
  readonly version: RecipeVersion;
  readonly before: RecipeVersion | undefined;
  readonly changes: readonly MaterialChange[];
  /** Whether the two bases don't add up to the same, so that both are told in parts of 100. */
  readonly isScaled: boolean;
}

/** The versions of a recipe, the newest first. */
export function revisedVersions({ versions }: Recipe): RevisedVersion[] {
  const inOrder = versions.toSorted((one, other) => compareTexts(one.from, other.from));
  return inOrder.map((version, at) => revisedFrom(inOrder[at - 1], version)).reverse();
}

function revisedFrom(before: RecipeVersion | undefined, version: RecipeVersion): RevisedVersion {
  const isScaled = before !== undefined && !partsIn(before).eq(partsIn(version));
  const base = (one: RecipeVersion | undefined) =>
    amountsOf(one?.base ?? [], ({ parts }) =>
      isScaled && one ? portion(WHOLE_BASE, parts, partsIn(one)) : parts,
    );
  const additions = (one: RecipeVersion | undefined) =>
    amountsOf(one?.additions ?? [], ({ percent }) => percent);
  const changes = [
    ...changesIn('base', base(before), base(version)),
    ...changesIn('addition', additions(before), additions(version)),
  ];
  return { version, before, changes, isScaled };
}

const WHOLE_BASE = decimal(100);

function partsIn({ base }: RecipeVersion): Decimal {
  return sum(base.map(({ parts }) => parts));
}

type PartsByMaterial = ReadonlyMap<string, Decimal>;

function amountsOf<T extends { readonly material: string }>(
  lines: readonly T[],
  amountOf: (line: T) => Decimal,
): PartsByMaterial {
  const amounts = new Map<string, Decimal>();
  for (const line of lines)
    amounts.set(line.material, (amounts.get(line.material) ?? ZERO).plus(amountOf(line)));
  return amounts;
}

function changesIn(
  part: MaterialChange['part'],
  old: PartsByMaterial,
  now: PartsByMaterial,
): MaterialChange[] {
  return [...new Set([...now.keys(), ...old.keys()])]
    .map((material) => ({ material, part, before: old.get(material), after: now.get(material) }))
    .filter(({ before, after }) => !before || !after || !before.eq(after));
}
