/** Shows a new record as it will be in its file, with the place of what is asked next. */
import { FIELDS, type FieldSpec, type RecordSpec } from '../../../schema/generated/fields.js';
import { NOUN } from '../../check/finding.ts';
import {
  isList,
  isMap,
  mapping,
  valueAt,
  withValue,
  type Path,
  type Raw,
  type RawMap,
} from '../../read/raw.ts';
import { amendText } from '../amend.ts';
import { withChanges, type Amendment } from '../amendment.ts';
import type { FoundRecord } from '../lexicon.ts';
import { wholeText } from '../../read/disk.ts';
import { putRecords, type Additions } from '../add.ts';
import { effectLines, holdingsOf } from '../effect.ts';
import type { Edited, OpenedStudio } from '../plan.ts';
import { withSaleTax } from '../sale-tax.ts';
import { draftId, lookAtDraft, type RecordDraft } from './draft.ts';
import { optionWords, recordOf, type Ground } from './ground.ts';
import {
  NO_OUTLOOK,
  PLACE,
  recordInFile,
  type FieldProblem,
  type EntryOutlook,
  type Preview,
  type ShownRecord,
} from './preview.ts';
import type { Answer } from './question.ts';

/** An id of one's own, and chance that begins anew each time, so that the id stays the same. */
interface IdOfNew {
  readonly id: string | undefined;
  readonly chance: () => () => number;
}

/** What can be seen of a new record. */
export function recordPreview(ground: Ground, naming: IdOfNew): Preview {
  const { kind, opened } = ground;
  const fieldsOf = (answers: readonly Answer[]): RawMap =>
    recordOf(ground, optionWords(ground, answers)).fields;
  return {
    record: (answers, place) => {
      const fields = fieldsOf(answers);
      const taxed = kind === 'sales' ? withSaleTax(opened.book, fields) : fields;
      return newRecordShown(
        opened,
        { kind, fields: withPlace(FIELDS[kind], taxed, place) },
        naming,
      );
    },
    outlook: (answers) => {
      const fields = fieldsOf(answers);
      const { effects, problems } = draftOutlook(opened, { kind, id: draftId(kind), fields });
      return { effects, problems: [...problems, ...idProblem(opened, { kind, fields }, naming)] };
    },
  };
}

/** That the id is taken, which mostly is one that was made of the name. */
function idProblem(
  opened: OpenedStudio,
  { kind, fields }: NewFields,
  { id, chance }: IdOfNew,
): readonly FieldProblem[] {
  const put = putRecords(opened, { kind, records: [{ id, fields }], random: chance() }, new Map());
  if (!('refused' in put)) return [];
  const isNamed = id === undefined && typeof fields['name'] === 'string';
  const [taken = ''] = put.refused.split('; ');
  const message = isNamed ? `${taken}; give this one another name` : put.refused;
  return [{ path: isNamed ? ['name'] : [], message }];
}

/** What can be seen of the sale of a day at a fair; it begins with what is known of it. */
export function salePreview(
  opened: OpenedStudio,
  { known, ...naming }: IdOfNew & { readonly known: RawMap },
  saleOf: (answers: readonly Answer[]) => RawMap | undefined,
): Preview {
  return {
    record: (answers) =>
      newRecordShown(opened, { kind: 'sales', fields: saleOf(answers) ?? known }, naming),
    outlook: (answers) => {
      const sale = saleOf(answers);
      return sale
        ? draftOutlook(opened, { kind: 'sales', id: draftId('sales'), fields: sale })
        : NO_OUTLOOK;
    },
  };
}

/** What can be seen of changes in a record that is in its file already. */
export function amendedPreview(
  opened: OpenedStudio,
  record: FoundRecord,
  changesOf: (answers: readonly Answer[]) => readonly Amendment[],
): Preview {
  const { id, kind, file, raw } = record;
  return {
    record: (answers, place) => {
      const before = wholeText(opened.folder, file);
      if (before === undefined) return undefined;
      const changes = changesOf(answers);
      const text = amendText(before, record, place ? withMark(changes, place) : changes);
      return 'refused' in text ? undefined : recordInFile({ file, isNew: false }, { ...text, id });
    },
    outlook: (answers) => {
      const changed = withChanges(raw, changesOf(answers));
      const fields = isMap(changed) ? changed : mapping([]);
      return draftOutlook(opened, { kind, id, file, fields });
    },
  };
}

/** The changes with the sign at a place; in a mapping that is there already, as its next entry. */
function withMark(changes: readonly Amendment[], place: Path): readonly Amendment[] {
  const isThere = ({ path }: Amendment): boolean => isSamePath(path, place);
  const known = changes.find(isThere)?.value;
  const value = isMap(known) ? mapping([...Object.entries(known), [PLACE, '']]) : PLACE;
  return [...changes.filter((change) => !isThere(change)), { path: place, value }];
}

function isSamePath(a: Path, b: Path): boolean {
  return a.length === b.length && a.every((step, at) => step === b[at]);
}

/** What a new record says. */
interface NewFields extends Pick<Additions, 'kind'> {
  readonly fields: RawMap;
}

/** A record that is not in its file yet, as it will be there. */
function newRecordShown(
  opened: OpenedStudio,
  { kind, fields }: NewFields,
  { id, chance }: IdOfNew,
): ShownRecord | undefined {
  const edited = new Map<string, Edited>();
  const put = (own: string | undefined): ReturnType<typeof putRecords> =>
    putRecords(opened, { kind, records: [{ id: own, fields }], random: chance() }, edited);
  const named = put(id);
  // Until it has a name to make an id of, it goes by one that is not shown as such.
  const added = 'refused' in named ? put(draftId(kind)) : named;
  if ('refused' in added) return undefined;
  const [record] = added;
  const text = record && edited.get(record.file);
  if (!record || text?.after === undefined) return undefined;
  const isNew = text.before === undefined;
  const shown = recordInFile({ file: record.file, isNew }, { text: text.after, id: record.id });
  const [head = '', ...lines] = shown?.lines ?? [];
  const isNamed = added === named;
  return shown && !isNamed ? { ...shown, lines: [head.replace(record.id, '…'), ...lines] } : shown;
}

/** The fields with the sign in its place, in the schema's order. */
function withPlace(spec: RecordSpec, fields: RawMap, place: Path | undefined): RawMap {
  if (!place) return fields;
  // A line of a mapping is its next entry.
  const isEntry = isMap(valueAt(fields, place));
  const put = isEntry ? withValue(fields, [...place, PLACE], '') : withValue(fields, place, PLACE);
  return isMap(put) ? inOrder(spec, put) : fields;
}

function inOrder(spec: RecordSpec, fields: RawMap): RawMap {
  const known = Object.keys(spec.fields).filter((name) => fields[name] !== undefined);
  const others = Object.keys(fields).filter((name) => spec.fields[name] === undefined);
  return mapping(
    [...known, ...others].map((name) => {
      const value: Raw = fields[name] ?? '';
      const inner = spec.fields[name];
      return [name, inner ? valueInOrder(inner, value) : value];
    }),
  );
}

function valueInOrder(spec: FieldSpec, value: Raw): Raw {
  if (spec.type === 'record' && isMap(value)) return inOrder(spec, value);
  const isOfLines = spec.type === 'list' && isList(value);
  return isOfLines ? value.map((line) => valueInOrder(spec.of, line)) : value;
}

function draftOutlook(opened: OpenedStudio, draft: RecordDraft): EntryOutlook {
  const { kind, id, file } = draft;
  const { book, findings } = lookAtDraft(opened, draft);
  const errors = findings.filter(({ severity }) => severity === 'error');
  const problems = errors.map(({ at, message, hint }): FieldProblem => {
    const path = 'path' in at && at.path[0] === id ? at.path.slice(1) : [];
    return { path, message: `${message}; ${hint}` };
  });
  if (!book || problems.length > 0) return { ...NO_OUTLOOK, problems };
  const { asOf } = opened;
  const [held, holds] = [holdingsOf(opened.book, asOf), holdingsOf(book, asOf)];
  const lines = effectLines({ before: opened.book, after: book, held, holds }, [{ kind, id }]);
  const name = file === undefined ? `this ${NOUN[kind]}` : `${NOUN[kind]} ${id}`;
  return { effects: lines.map((line) => line.replace(`${NOUN[kind]} ${id}`, name)), problems };
}
