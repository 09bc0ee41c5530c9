/** Changes of records in words, one by one, each with its size, so that the largest of many can be shown. */
import type { Became, RecordChange } from './changes.ts';
import type { FieldChange } from './fields.ts';
import type { Reason } from './reasons.ts';
import type { Risk } from './risks.ts';
import {
  aboutChange,
  fieldWords,
  fileAndLine,
  moneyMoved,
  placeOfChange,
  titleOfRecord,
  type FieldWords,
  type Speech,
} from './words.ts';

/** What tells which of many things are alike, and which of these are the largest. */
export interface Sized {
  /** The same for things that are alike. */
  readonly sort: string;
  /** The money that the record's amount moved by, in minor units; 0 where it has none. */
  readonly size: number;
}

/** A change with all that speaks against it, in words. */
export interface ReviewRisk extends Sized {
  /** `sale s260310kr` */
  readonly title: string;
  readonly about: string;
  readonly at: string;
  readonly reasons: readonly Reason[];
}

/** A record that is not what it was. */
export interface ReviewChange extends Sized {
  readonly kind: string;
  readonly id: string;
  readonly became: Became;
  readonly was: string | undefined;
  readonly title: string;
  readonly about: string;
  readonly at: string;
  /** The file that it was in before, where that is another. */
  readonly from: string | undefined;
  readonly fields: readonly FieldWords[];
  /** How many references follow a renaming. */
  readonly follows: number;
}

export function riskWords(speech: Speech, { change, reasons }: Risk): ReviewRisk {
  return {
    sort: [change.kind, reasons[0]?.why].join(' '),
    size: moneyMoved(speech, change),
    title: titleOfRecord(change),
    about: aboutChange(speech, change),
    at: fileAndLine(placeOfChange(speech, change)),
    reasons,
  };
}

export function changeWords(
  speech: Speech,
  change: RecordChange,
  changes: readonly RecordChange[],
): ReviewChange {
  const { kind, id, became, was, before, after, fields } = change;
  const follows = became === 'renamed' ? followersOf(change, changes) : change.follows;
  const isMoved = before && after && before.file !== after.file;
  return {
    sort: [kind, became, ...new Set(fields.map(keysOf))].join(' '),
    size: moneyMoved(speech, change),
    kind,
    id,
    became,
    was,
    title: titleOfRecord(change),
    about: aboutChange(speech, change),
    at: fileAndLine(placeOfChange(speech, change)),
    from: isMoved ? before.file : undefined,
    fields: fields.map((field) => fieldWords(speech, change, field)),
    follows: follows.length,
  };
}

/** The path of a field, whichever item of a list it is of. */
function keysOf({ path }: FieldChange): string {
  return path.filter((part) => typeof part === 'string').join('.');
}

/** The references of all records that follow a renaming. */
function followersOf({ id, kind }: RecordChange, changes: readonly RecordChange[]): FieldChange[] {
  return changes
    .flatMap(({ follows }) => follows)
    .filter(
      ({ after, spec }) =>
        after === id && spec.type === 'reference' && kind !== 'studio' && spec.to.includes(kind),
    );
}
