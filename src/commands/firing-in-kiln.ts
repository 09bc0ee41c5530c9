/** Finds the firing that is to be unloaded. */
import { NOUN, withArticle } from '../check/finding.ts';
import { countsFlow } from '../reckon/flow.ts';
import type { Named } from '../entry/lexicon.ts';
import { firingsInKiln, type InKiln } from '../reckon/standing.ts';
import { askedRecord } from './find-record.ts';
import type { OpenedFiles } from './open.ts';
import { isRefusal, type Asked, type Refusal } from './world.ts';

/** The firing whose id was typed; without an id the one that is in the kiln, if it is the only one. */
export function firingToUnload(asked: Asked, opened: OpenedFiles): Named | Refusal {
  if (asked.argument !== undefined) return askedFiring(asked.argument, opened, asked);
  const inKiln = firingsInKiln(opened.book, countsFlow(opened.book, opened.asOf));
  const [only, ...others] = inKiln;
  if (!only) return { refused: 'nothing is in a kiln; put a load down with saggar add firings' };
  if (others.length > 0)
    return { refused: `say which firing: ${inKiln.map(inWords).join(' or ')}` };
  return askedFiring(only.firing.id, opened, asked);
}

function askedFiring(id: string, opened: OpenedFiles, asked: Asked): Named | Refusal {
  const record = askedRecord({ ...asked, argument: id }, opened);
  if (isRefusal(record) || record.kind === 'firings') return record;
  return { refused: `${id} is ${withArticle(NOUN[record.kind])}, not a firing` };
}

function inWords({ firing, kilnName, count }: InKiln): string {
  const { id, kind, date } = firing;
  return `${id} (${kind} of ${date}, ${String(count)} pieces in ${kilnName})`;
}
