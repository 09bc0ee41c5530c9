/** Puts quotes round the scalars that other readers would take for something else than text. */
import { isCoreValue } from '../read/yaml/core.ts';
import type { Path } from '../read/raw.ts';
import { isNumberElsewhere, scalarText } from './emit.ts';
import type { Edit } from './lines.ts';
import { layoutOf, type TextPart, type ScalarPart } from './parts.ts';
import { follow, pathText, spliced, type Spliced } from './trail.ts';

/** A value, or a key, that should be read as text. */
export interface TextSpot {
  readonly path: Path;
  /** Absent means the value. */
  readonly on?: 'key' | 'value';
}

/** The text with quotes, and how many scalars got some; or why not. */
type Tidied =
  | Exclude<Spliced, { text: string }>
  | (Extract<Spliced, { text: string }> & { readonly quoted: number });

/**
 * Quotes the plain scalars at the spots that some YAML reader would not take for text, and
 * changes nothing else. An empty value stays empty: whether a text is missing or was meant to be
 * empty only the person knows. Refused where a spot leads to nothing, as when the file has changed.
 */
export function tidyText(text: string, spots: readonly TextSpot[]): Tidied {
  const file = layoutOf(text);
  if ('refused' in file) return file;
  const edits = new Map<number, Edit>();
  for (const spot of spots) {
    const scalar = scalarAt(file.root, spot);
    if (!scalar) return { refused: `there is no single value at ${pathText(spot.path)}` };
    const edit = quoting(file.text, scalar);
    if (edit) edits.set(edit.start, edit);
  }
  const done = spliced(file, [...edits.values()], file.content);
  return 'refused' in done ? done : { ...done, quoted: edits.size };
}

function scalarAt(root: TextPart | undefined, { path, on }: TextSpot): ScalarPart | undefined {
  const { entries } = follow(root, path);
  const entry = entries[path.length - 1];
  const part = on === 'key' ? entry?.key : entry?.value;
  return part?.type === 'scalar' ? part : undefined;
}

function quoting(text: string, { style, start, end }: ScalarPart): Edit | undefined {
  const source = text.slice(start, end);
  if (style !== 'plain' || !(isCoreValue(source) || isNumberElsewhere(source))) return undefined;
  return { start, end, text: scalarText(source, { number: false, inFlow: false }) };
}
