/** Gives back what was typed when it can't be written, so that nothing has to be typed twice. */
import type { Day, Kind } from '../book.ts';
import { emitOnScreen } from '../write/emit.ts';
import { withDay } from './defaults.ts';
import type { GivenRecord } from './given.ts';

/**
 * The records as YAML that can be mended and given to the same command on standard input; the hint
 * stands above it as comments. They say which day they are of, for that may not be the next one's.
 */
export function typedAgain(kind: Kind, records: readonly GivenRecord[], day: Day): string {
  const dated = records.map(({ id, fields }) => ({ id, fields: withDay(kind, fields, day) }));
  const hint = `# Nothing was written. Mend this, save it as record.yaml, and give it in with:\n#   saggar add ${kind} < record.yaml\n`;
  return hint + dated.map(echo).join('');
}

function echo({ id, fields }: GivenRecord): string {
  if (id !== undefined) return emitOnScreen(id, fields);
  if (Object.keys(fields).length === 0) return '{}\n';
  const lines = emitOnScreen('record', fields).split('\n').slice(1);
  return lines.map((line) => line.replace(/^ {2}/, '')).join('\n');
}
