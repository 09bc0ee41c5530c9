/** Finds the record that a command is asked to change. */
import { KINDS } from '../../book.ts';
import { NOUN, withArticle } from '../../check/finding.ts';
import type { Amendable } from '../../entry/amendment.ts';
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import { SETTINGS_FILE } from '../../read/kinds.ts';
import { countsFlow } from '../../reckon/flow.ts';
import { firingsInKiln, type InKiln } from '../../reckon/ware/standing.ts';
import { unknownId } from '../ids.ts';
import type { OpenedFiles } from '../studio/open.ts';
import { isRefusal, type Asked, type Refusal } from '../world.ts';

/** What is to be amended: a record by its id, or the settings by the name of their file. */
export function askedAmendable(
  asked: Pick<Asked, 'argument'>,
  opened: OpenedFiles,
): Amendable | Refusal {
  const { argument } = asked;
  const { files } = opened.reading;
  const isRecord = lexiconOf(files).find(argument ?? '') !== undefined;
  const isSettings = argument === SETTINGS_FILE || (argument === 'studio' && !isRecord);
  const settings = isSettings ? files.find(({ kind }) => kind === 'studio') : undefined;
  if (settings) return { id: '', kind: 'studio', file: settings.file, raw: settings.root };
  return askedRecord(asked, opened);
}

/** The record of the id that was typed; refuses where there is none or where two files have it. */
export function askedRecord(
  { argument }: Pick<Asked, 'argument'>,
  { reading }: OpenedFiles,
): FoundRecord | Refusal {
  if (argument === undefined) return { refused: 'say which record: give its id' };
  const lexicon = lexiconOf(reading.files);
  const named = lexicon.find(argument);
  if (!named) return unknownId('record', argument, lexicon.ids(KINDS));
  const files = reading.files.filter(({ kind, root }) => kind !== 'studio' && named.id in root);
  if (files.length < 2) return named;
  const where = files.map(({ file }) => file).join(' and in ');
  return { refused: `${named.id} is in ${where}; give one of them another id first` };
}

/** The firing whose id was typed; without an id the one that is in the kiln, if it is the only one. */
export function firingToUnload(
  { argument }: Pick<Asked, 'argument'>,
  opened: OpenedFiles,
): FoundRecord | Refusal {
  if (argument !== undefined) return askedFiring(argument, opened);
  const inKiln = firingsInKiln(opened.book, countsFlow(opened.book, opened.asOf));
  const [only, ...others] = inKiln;
  if (!only) return { refused: 'nothing is in a kiln; record a load with saggar add firings' };
  if (others.length > 0)
    return { refused: `say which firing: ${inKiln.map(firingInWords).join(' or ')}` };
  return askedFiring(only.firing.id, opened);
}

function askedFiring(id: string, opened: OpenedFiles): FoundRecord | Refusal {
  const record = askedRecord({ argument: id }, opened);
  if (isRefusal(record) || record.kind === 'firings') return record;
  return { refused: `${id} is ${withArticle(NOUN[record.kind])}, not a firing` };
}

function firingInWords({ firing, kilnName, count }: InKiln): string {
  const { id, kind, date } = firing;
  return `${id} (${kind} of ${date}, ${String(count)} pieces in ${kilnName})`;
}
