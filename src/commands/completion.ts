/** `saggar completion SHELL`: the script that lets a shell complete what is typed. */
import { printedLayout } from '../render/printable.ts';
import { COMPLETE_WORDS } from './catalogue.ts';
import { bashScript } from './completion-bash.ts';
import { fishScript } from './completion-fish.ts';
import { zshScript } from './completion-zsh.ts';
import { EXIT, type Command } from './world.ts';

const SCRIPTS: Readonly<Record<string, (ask: string) => string>> = {
  bash: bashScript,
  zsh: zshScript,
  fish: fishScript,
};

/** Prints the script of a shell; the command line has seen to it that there is one. */
export const completion: Command = ({ argument = '' }, world) => {
  const script = SCRIPTS[argument]?.(`saggar ${COMPLETE_WORDS.name} --`) ?? '';
  world.write(printedLayout(script));
  return Promise.resolve(EXIT.fine);
};
