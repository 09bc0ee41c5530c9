/** `saggar unload FIRING` at a terminal: asks what came out, then writes as if all had been options. */
import type { Named } from '../entry/lexicon.ts';
import { lexiconOf } from '../entry/lexicon.ts';
import { textOf, type Answer } from '../entry/questions/question.ts';
import {
  outcomeSentences,
  unloadScript,
  usualReadings,
  type Kilnful,
  type Reading,
} from '../entry/questions/unload-script.ts';
import { runErrand } from './ask.ts';
import type { Scene } from './change.ts';
import type { Asked, World } from './world.ts';

/** What is to be asked, and how a firing is unloaded by options. */
export interface Unloading {
  readonly firing: Named;
  /** The readings that no option gives. */
  readonly readings: readonly Reading[];
  readonly unload: (asked: Asked, world: World, agreed: () => Promise<boolean>) => Promise<number>;
}

/** Asks lot by lot, then for the readings that are usual, and unloads the firing. */
export function askAndUnload(
  scene: Scene,
  { firing, readings, unload }: Unloading,
): Promise<number> {
  const { opened, asked } = scene;
  const lexicon = lexiconOf(opened.reading.files);
  const usual = usualReadings(firing, lexicon, readings);
  const kilnful = { opened, lexicon, firing, readings: usual };
  return runErrand(scene.world, {
    title: `Unloading ${firing.id}`,
    folder: opened.folder,
    script: unloadScript(kilnful),
    carryOut: (answers, world, agreed) =>
      unload(withAnswers(asked, kilnful, answers), world, agreed),
  });
}

/** The command line as it would have been with the answers on it. */
function withAnswers(asked: Asked, kilnful: Kilnful, answers: readonly Answer[]): Asked {
  const read = kilnful.readings
    .map(({ option }) => [option, textOf(answers, option)] as const)
    .filter(([, text]) => text !== '');
  const line = outcomeSentences(kilnful, answers);
  const argument = kilnful.firing.id;
  return { ...asked, argument, options: { ...asked.options, ...Object.fromEntries(read), line } };
}
