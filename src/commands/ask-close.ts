/** `saggar add sales --closing` at a terminal: asks how the day ended, then writes as if all had been options. */
import { lexiconOf } from '../entry/lexicon.ts';
import type { FairDay } from '../entry/closing/count.ts';
import { closingScript, closingWords } from '../entry/questions/closing-script.ts';
import { runErrand } from './ask.ts';
import type { Scene } from './change.ts';
import type { closeBy, SaidOptions } from './close-fair.ts';

/** The day that ends, and what options said already. */
export interface Ending {
  readonly at: FairDay;
  readonly said: SaidOptions;
  readonly close: typeof closeBy;
}

/** Asks, and ends the day. */
export function askAndClose(
  { asked, world, opened }: Scene,
  { at, said, close }: Ending,
): Promise<number> {
  const lexicon = lexiconOf(opened.reading.files);
  const known = new Map([...said, ['fair', [at.fair.id]] as const, ['date', [at.day]] as const]);
  const stall = { opened, lexicon, at, said: known };
  return runErrand(world, {
    title: `End of ${at.day} at ${at.fair.name}`,
    folder: opened.folder,
    script: closingScript(stall),
    carryOut: (answers, inner, agreed) =>
      close(closingWords(stall, answers), [asked, inner], agreed),
  });
}
