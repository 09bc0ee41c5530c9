/** Finds the record that a command is asked to change. */
import type { Amendable } from '../entry/amendment.ts';
import { lexiconOf, type Named } from '../entry/lexicon.ts';
import { SETTINGS_FILE } from '../read/kinds.ts';
import { KINDS } from '../book.ts';
import { unknownId } from './ids.ts';
import type { OpenedFiles } from './open.ts';
import type { Asked, Refusal } from './world.ts';

/** What is to be amended: a record by its id, or the settings by the name of their file. */
export function askedAmendable(asked: Asked, opened: OpenedFiles): Amendable | Refusal {
  const { argument } = asked;
  const { files } = opened.reading;
  const isRecord = lexiconOf(files).find(argument ?? '') !== undefined;
  const isSettings = argument === SETTINGS_FILE || (argument === 'studio' && !isRecord);
  const settings = isSettings ? files.find(({ kind }) => kind === 'studio') : undefined;
  if (settings) return { id: '', kind: 'studio', file: settings.file, raw: settings.root };
  return askedRecord(asked, opened);
}

/** The record of the id that was typed; refuses where there is none or where two files have it. */
export function askedRecord({ argument }: Asked, { reading }: OpenedFiles): Named | Refusal {
  if (argument === undefined) return { refused: 'say which record: give its id' };
  const lexicon = lexiconOf(reading.files);
  const named = lexicon.find(argument);
  if (!named) return unknownId('record', argument, lexicon.ids(KINDS));
  const files = reading.files.filter(({ kind, root }) => kind !== 'studio' && named.id in root);
  if (files.length < 2) return named;
  const where = files.map(({ file }) => file).join(' and in ');
  return { refused: `${named.id} stands in ${where}; give one of them another id first` };
}
