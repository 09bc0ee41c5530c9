/** Puts quotes round the scalars that other readers would take for something else than text. */
import { isCoreValue } from '../read/yaml/core.ts';
import type { Path } from '../read/raw.ts';
import { scalarText } from './emit.ts';
import type { Edit } from './lines.ts';
import { layoutOf, type TextPart, type ScalarPart } from './parts.ts';
import { follow, pathText, spliced, type Spliced } from './trail.ts';

/** A value, or a key, that should be read as text. */
export interface TextSpot {
  readonly path: Path;
  /** Absent means the value. */
  readonly on?: 'key' | 'value';
}

/**
 * Quotes the plain scalars at the spots that a YAML 1.2 core reader would not take for text, and
 * changes nothing else. An empty value stays empty: whether a text is missing or was meant to be
 * empty only the person knows. Refused where a spot leads to nothing, as when the file has changed.
 */
export function tidyText(text: string, spots: readonly TextSpot[]): Spliced {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const edits = new Map<number, Edit>();
  for (const spot of spots) {
    const scalar = scalarAt(file.root, spot);
    if (!scalar) return { refused: `there is no single value at ${pathText(spot.path)}` };
    const edit = quoting(file.text, scalar);
    if (edit) edits.set(edit.start, edit);
  }
  return spliced(file, [...edits.values()], file.content);
}

function scalarAt(root: TextPart | undefined, { path, on }: TextSpot): ScalarPart | undefined {
  const { entries } = follow(root, path);
  const entry = entries[path.length - 1];
  const part = on === 'key' ? entry?.key : entry?.value;
  return part?.type === 'scalar' ? part : undefined;
}

function quoting(text: string, { style, start, end }: ScalarPart): Edit | undefined {
  const source = text.slice(start, end);
  if (style !== 'plain' || !isCoreValue(source)) return undefined;
  return { start, end, text: scalarText(source, { number: false, inFlow: false }) };
}
