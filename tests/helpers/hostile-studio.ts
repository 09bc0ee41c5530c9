/** A studio of a stranger who wishes ill: whatever text may stand in it acts on a terminal, if it gets there raw. */
import { FIELDS } from '../../schema/generated/fields.js';
import type { FieldSpec, RecordSpec } from '../../schema/build/spec.ts';
import { emitRecord } from '../../src/write/emit.ts';
import { KINDS, type Kind } from '../../src/book.ts';
import type { Raw, RawMap } from '../../src/read/raw.ts';
import { rawFile } from './file-views.ts';
import { SMALL_STUDIO } from './small-studio.ts';

/**
 * Clears a screen, writes to the clipboard (OSC 52), makes a link (OSC 8), rings, goes back over what
 * stands there, turns the direction of writing, hides, begins a sequence in one sign (C1), ends lines.
 */
export const HOSTILE =
  'x\u001b[2J\u001b]52;c;aGk=\u0007\u001b]8;;a:b\u0007\r\b\u202e\u2066\u200b\u009b31m\u2028\nSPOOF';

/** The same as far as a name of git's may hold it. */
export const HOSTILE_BRANCH = 'b\u202e\u2066\u200b\u009b31m\u2028SPOOF';

const MORE: Readonly<Record<string, string>> = {
  'used/2026-04.yaml': `u260410ab:
  date: 2026-04-10
  material: kaolin
  quantity: 1 kg
  for: test
`,
  'counted/2026-04.yaml': 'c260411ab:\n  date: 2026-04-11\n  material: kaolin\n  quantity: 17 kg\n',
  'reclaimed/2026-04.yaml': `r260412ab:
  date: 2026-04-12
  material: buff-stoneware
  quantity: 5 lb
`,
  'spent/2026-04.yaml': 'e260413ab:\n  date: 2026-04-13\n  for: rent\n  amount: 300.00\n',
  'consigned/2026-04.yaml': `g260414ab:
  date: 2026-04-14
  channel: gallery
  lines:
    - { product: mug, count: 3, price: 38.50 }
`,
  'tests/2026-04.yaml': `t260415ab:
  date: 2026-04-15
  kind: leach
  recipe: sea-green
  result: passed
`,
  'filed/2026.yaml': `d260416ab:
  date: 2026-04-16
  period: 2025
  sheet: plain
  lines: { '20': 0.00 }
`,
};

/** The names of all kinds' fields that hold a text, by way of which records: `sales lines note`. */
export function textFields(): string[] {
  return KINDS.flatMap((kind) => textsIn(FIELDS[kind], [kind]));
}

function textsIn(spec: FieldSpec, path: readonly string[]): string[] {
  if (spec.type === 'text') return [path.join(' ')];
  if (spec.type === 'list' || spec.type === 'map') return textsIn(spec.of, path);
  if (spec.type === 'either') return [...textsIn(spec.record, path), ...textsIn(spec.other, path)];
  if (spec.type !== 'record') return [];
  return Object.entries(spec.fields).flatMap(([name, inner]) => textsIn(inner, [...path, name]));
}

/** Texts that must have a form; hostile ones are not sound. */
const FORMED = ['firings peak', 'spent for', 'spent distance', 'filed period', 'filed sheet'];

/** A record of a hostile studio. */
export interface HostileRecord {
  readonly kind: Kind;
  readonly id: string;
  readonly fields: RawMap;
}

/** Records of every kind with a hostile text wherever one may stand; `all`: where none may, too. */
export function hostileRecords(all = false): HostileRecord[] {
  return Object.entries({ ...SMALL_STUDIO, ...MORE }).flatMap(([file, text]) => {
    const kind = KINDS.find((each) => file.startsWith(each));
    if (!kind) return [];
    return Object.entries(rawFile(kind, text, file).root).map(([id, raw]) => {
      const fields = asHostile({ all, path: [kind] }, FIELDS[kind], raw as RawMap);
      return { kind, id: all ? id + HOSTILE : id, fields };
    });
  });
}

/** Files of a studio of such records, in files of hostile names. */
export function hostileFiles(all = false): Record<string, string> {
  const settings = all ? '"\\e[2Jx": 1\ncurrency: "\\e[2J"\n' : 'currency: USD\n';
  const files: Record<string, string> = {
    'studio.yaml': `format: 1\n${settings}name: ${JSON.stringify(HOSTILE)}\n`,
    [`notes${HOSTILE}/stray.yaml`]: 'a: 1\n',
  };
  for (const { kind, id, fields } of hostileRecords(all)) {
    const file = `${kind}/${HOSTILE}.yaml`;
    files[file] = (files[file] ?? '') + emitRecord(id, fields);
  }
  return files;
}

interface Malice {
  readonly all: boolean;
  readonly path: readonly string[];
}

function asHostile({ all, path }: Malice, spec: RecordSpec, raw: RawMap): RawMap {
  const either = [...(spec.oneOf ?? []), ...(spec.atMostOneOf ?? [])];
  const entries = Object.entries(spec.fields).flatMap(([name, inner]) => {
    const value = raw[name];
    const malice = { all, path: [...path, name] };
    if (value !== undefined) return [[name, hostileValue(malice, inner, value)] as const];
    const isFree = all || (isText(malice, inner) && !either.includes(name));
    return isFree ? [[name, HOSTILE] as const] : [];
  });
  return Object.fromEntries(entries);
}

function isText({ path }: Malice, spec: FieldSpec): boolean {
  if (spec.type === 'either') return spec.other.type === 'text';
  return spec.type === 'text' && !FORMED.includes(path.join(' '));
}

function hostileValue(malice: Malice, spec: FieldSpec, raw: Raw): Raw {
  if (typeof raw === 'string') return malice.all || isText(malice, spec) ? raw + HOSTILE : raw;
  if (isList(raw)) {
    const of = spec.type === 'list' ? spec.of : spec;
    return raw.map((item) => hostileValue(malice, of, item));
  }
  if (spec.type === 'either') return hostileValue(malice, spec.record, raw);
  if (spec.type === 'record') return asHostile(malice, spec, raw);
  if (spec.type !== 'map') return raw;
  const entries = Object.entries(raw).map(([key, value]) => [
    malice.all ? key + HOSTILE : key,
    hostileValue(malice, spec.of, value),
  ]);
  return Object.fromEntries(entries) as RawMap;
}

function isList(raw: Exclude<Raw, string>): raw is readonly Raw[] {
  return Array.isArray(raw);
}
