/** A new version beside the one before, material by material, in parts and in per cent. */
import { decimal, divide, roundTo, sum, type Decimal } from '../../number/decimal.ts';
import { textUnder } from '../../read/raw.ts';
import { linesOfVersion, type RecipeLine, type Revision } from './revise.ts';

/** A head, and a line for each material: `silica  25 (25%) → 27 (26.47%)`. */
export function revisionLines({ before, version }: Revision): readonly string[] {
  const now = linesOfVersion(version);
  const was = before ? linesOfVersion(before) : { base: [], additions: [] };
  const rows = [
    ...sideBySide(shareWords(was.base), shareWords(now.base)),
    ...sideBySide(shareWords(was.additions, ' on top'), shareWords(now.additions, ' on top')),
  ];
  const width = Math.max(...rows.map(({ material }) => material.length));
  const head = before
    ? `Version from ${textUnder(before, 'from')} → version from ${textUnder(version, 'from')}`
    : `Version from ${textUnder(version, 'from')}`;
  return [head, ...rows.map(({ material, words }) => `  ${material.padEnd(width)}  ${words}`)];
}

interface MaterialRow {
  readonly material: string;
  readonly words: string;
}

function sideBySide(
  was: ReadonlyMap<string, string>,
  now: ReadonlyMap<string, string>,
): readonly MaterialRow[] {
  const materials = [...new Set([...was.keys(), ...now.keys()])];
  return materials.map((material) => {
    const [then = '(none)', is = '(none)'] = [was.get(material), now.get(material)];
    return { material, words: then === is ? is : `${then} → ${is}` };
  });
}

/** Material → its amount as it is written, with its share of the base; additions say theirs. */
function shareWords(lines: readonly RecipeLine[], onTop = ''): ReadonlyMap<string, string> {
  const parts = lines.map(({ amount }) => numberIn(amount));
  const all = sum(parts);
  return new Map(
    lines.map(({ material, amount }, at) => {
      if (onTop !== '') return [material, amount + onTop];
      const share = all.isZero() ? all : divide((parts[at] ?? all).times(decimal(100)), all);
      return [material, `${amount} (${roundTo(share, 2).toString()}%)`];
    }),
  );
}

function numberIn(amount: string): Decimal {
  return /^\d+(?:\.\d+)?$/.test(amount) ? decimal(amount) : decimal(0);
}
