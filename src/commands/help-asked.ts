/** `saggar help COMMAND`: the same as `saggar COMMAND --help`. */
import { printedLayout } from '../render/printable.ts';
import { COMMANDS, type CommandOf } from './catalogue.ts';
import { commandHelp, generalHelp } from './help.ts';
import { refuse } from './reports/show.ts';
import { unknownCommand, unknownTopic } from './usage.ts';
import { EXIT } from './world.ts';

/** Prints help on everything, on a command, or on a kind of record. */
export const help: CommandOf<'help'> = async ({ argument: name, words: [, ...kind] }, world) => {
  const spec = COMMANDS.find((each) => each.name === name);
  if (name !== undefined && !spec) return refuse(world, unknownCommand(name));
  if (spec?.takesFields) {
    const { addRecords } = await import('./records/add.ts');
    const words = [...kind, '--help'];
    return addRecords({ argument: words[0], words, options: {} as never }, world);
  }
  if (kind.length > 0) return refuse(world, unknownTopic(String(name), kind.join(' ')));
  world.write(printedLayout(spec ? commandHelp(spec, world.width) : generalHelp(world.width)));
  return EXIT.fine;
};
