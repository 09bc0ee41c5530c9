/** What to do about a change that moves figures of the closed period. */
import { listed } from '../../check/finding.ts';
import { addDays } from '../../number/date.ts';
import type { RecordChange } from '../changes.ts';
import { CLOSED_HINT } from './closed.ts';
import { isEvent } from '../days.ts';
import { NOT_SHOWN } from '../value.ts';
import { fieldWords, type Speech } from '../words.ts';

const WITH_CHANGES: ReadonlySet<RecordChange['kind']> = new Set([
  'products',
  'channels',
  'classes',
]);

/** What is typed so that the change holds from a later day on; else how it is taken back. */
export function closedHint(speech: Speech, change: RecordChange): string {
  const { kind, before, after } = change;
  if (isEvent(kind)) return CLOSED_HINT;
  const later = before && after && laterCommand(change);
  const { closedThrough } = speech.old.book.studio;
  if (later !== undefined && closedThrough !== undefined)
    return `take it back, and type saggar ${later} --from ${addDays(closedThrough, 1)}, so that it holds from a day after the closed period`;
  return kind === 'studio' ? settingsHint(speech, change) : TAKE_BACK;
}

function laterCommand({ kind, id, fields }: RecordChange): string | undefined {
  if (WITH_CHANGES.has(kind)) return `amend ${id} …`;
  if (kind === 'recipes') return `revise ${id} …`;
  const isRate = fields.every(({ path: [key] }) => key === 'labour-rate');
  return kind === 'studio' && isRate ? 'amend studio.yaml labour-rate=…' : undefined;
}

const CORRECTED = 'figures that are filed have to be corrected where they were filed';
const TAKE_BACK = `take it back; if what was there before was wrong, ${CORRECTED}`;

/** The settings as they were, as they are written. */
function settingsHint(speech: Speech, change: RecordChange): string {
  const was = change.fields.map((field) => {
    const { path, before } = fieldWords(speech, change, field);
    return { path, before };
  });
  if (was.some(({ path, before }) => before === NOT_SHOWN || path.includes('.'))) return TAKE_BACK;
  const written = was.map(({ path, before }) =>
    before === undefined ? `take out ${path}` : `write ${path}: ${before}`,
  );
  return `${listed(written)}; ask whoever files for you before that is changed, for it changes what they have filed by`;
}
