/** A YAML text as the two readers of the program give it: raw texts, and a core reader's view. */
import { isMap, isScalar, isSeq, parseDocument, type Node, type Pair } from 'yaml';
import { NUMBER_KEYS } from '../../schema/generated/fields.js';
import type { CoreFile } from '../../src/read/yaml/core.ts';
import type { Raw, RawFile, RawMap } from '../../src/read/raw.ts';

/** What a YAML 1.2 core reader makes of the text. */
export function coreView(text: string): CoreFile {
  const document = parseDocument(text, { version: '1.2', schema: 'core' });
  const at = (path: readonly (string | number)[]): Node | undefined =>
    document.getIn(path, true) as Node | undefined;
  return {
    root: document.toJS(),
    plain: (path) => {
      const node = at(path);
      return isScalar(node) ? node.type === 'PLAIN' : undefined;
    },
    text: (path) => {
      const node = at(path);
      return isScalar(node) ? sourceOf(node) : '';
    },
  };
}

/** The text as raw records. */
export function rawFile(kind: RawFile['kind'], text: string, file = `${kind}.yaml`): RawFile {
  const odd = { seen: false };
  const { contents } = parseDocument(text, { version: '1.2', schema: 'core' });
  return { file, kind, root: rawOf(contents, '', odd) as RawMap, odd: odd.seen };
}

function rawOf(node: unknown, key: string, odd: { seen: boolean }): Raw {
  if (isSeq(node)) return node.items.map((item) => rawOf(item, key, odd));
  if (isMap(node)) return rawMap(node.items, odd);
  if (!isScalar(node)) return '';
  const isNumberKey = NUMBER_KEYS.has(key) || /^\d/.test(key);
  const isNumber = typeof node.value === 'number' && isNumberKey;
  if (typeof node.value !== 'string' && !isNumber) odd.seen = true;
  return sourceOf(node);
}

function rawMap(pairs: readonly Pair[], odd: { seen: boolean }): RawMap {
  const map = Object.create(null) as Record<string, Raw>;
  for (const { key, value } of pairs) {
    const name = isScalar(key) ? sourceOf(key) : '';
    map[name] = rawOf(value, name, odd);
  }
  return map;
}

function sourceOf(scalar: { source?: string; value: unknown }): string {
  return typeof scalar.value === 'string' ? scalar.value : (scalar.source ?? '');
}
