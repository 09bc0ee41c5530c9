/** Plans to put a text back that was in a file before, word for word and sound or not. */
import type { Kind } from '../../book.ts';
import { wholeText } from '../../read/disk.ts';
import { isMap } from '../../read/raw.ts';
import { layoutOf, type Refused } from '../../write/parts.ts';
import { putLinesBack, putRecordBack, type TakenLines } from '../../write/put-back.ts';
import { appendRecord } from '../../write/append.ts';
import type { AmendPlan } from '../amend.ts';
import type { Amendable } from '../amendment.ts';
import { planEdits, type ChangePlan, type OpenedStudio } from '../plan.ts';

/** Plans to give a record, or the settings, the lines that they had. */
export async function planAsItWas(
  opened: OpenedStudio,
  record: Amendable,
  lines: string,
): Promise<AmendPlan | Refused> {
  const { id, kind, file } = record;
  const before = wholeText(opened.folder, file);
  if (before === undefined) return { refused: `${file} is gone; run the command again` };
  const put = id === '' ? settingsIn(lines) : putRecordBack(before, id, lines);
  if ('refused' in put) return { refused: `${file} was left as it is: ${put.refused}` };
  const files = [{ file, kind, before, after: put.text }];
  const touched = kind === 'studio' ? [] : [{ kind, id }];
  const plan = await planEdits(opened, { files, touched });
  return { ...plan, record, text: put.text };
}

function settingsIn(text: string): { readonly text: string } | Refused {
  const read = layoutOf(text);
  return 'refused' in read ? read : { text };
}

/** Where records go back to: before a line of a file, else at its end. */
export interface BackTo {
  readonly kind: Kind;
  readonly file: string;
  readonly line: number | undefined;
}

/** A plan to put records back. */
export interface PutBackPlan extends ChangePlan {
  readonly ids: readonly string[];
}

/** Plans to put records back that were removed. */
export async function planPutBack(
  opened: OpenedStudio,
  { kind, file, line }: BackTo,
  text: string,
): Promise<PutBackPlan | Refused> {
  const given = layoutOf(text);
  if ('refused' in given) return { refused: `standard input: ${given.refused}` };
  const records = isMap(given.content) ? Object.entries(given.content) : [];
  const ids = records.map(([id]) => id);
  if (ids.length === 0) return { refused: 'there is no record on standard input' };
  const before = wholeText(opened.folder, file);
  const put =
    line === undefined ? atEnd(before ?? '', records) : putLines(before ?? '', { line, text });
  if ('refused' in put) return { refused: `${file} was left as it is: ${put.refused}` };
  const files = [{ file, kind, before, after: put.text }];
  const touched = ids.map((id) => ({ kind, id }));
  return { ...(await planEdits(opened, { files, touched })), ids };
}

function putLines(before: string, taken: TakenLines): ReturnType<typeof putLinesBack> {
  const put = putLinesBack(before, taken);
  if (!('refused' in put)) return put;
  return { refused: `${put.refused}; leave the line's number out to put it at the end` };
}

type RecordEntry = readonly [id: string, raw: Parameters<typeof isMap>[0]];

function atEnd(before: string, records: readonly RecordEntry[]): ReturnType<typeof putLinesBack> {
  let text = before;
  for (const [id, raw] of records) {
    if (!isMap(raw)) return { refused: `${id} has no fields` };
    const put = appendRecord(text, id, raw);
    if ('refused' in put) return put;
    text = put.text;
  }
  return { text };
}
