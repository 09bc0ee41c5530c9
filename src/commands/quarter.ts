/** `saggar quarter`: the tax summary of a quarter or a year, for a preparer, and what was filed of it. */
import { newAnswer, refuse, showAnswer, type MakeTableLater } from './show.ts';
import { type Asked, type Command, type Refusal, type World } from './world.ts';

/** Shows the tax summary of the quarter that the day is in, or of the one that is asked for; or writes what was filed. */
export const quarter: Command = async (asked, world) => {
  const refusal = mixedUp(asked);
  if (refusal) return refuse(world, refusal);
  if (asked.options['filed'] !== true) return showQuarter(asked, world);
  return (await import('./file-period.ts')).filePeriod(asked, world);
};

/** Options of showing and of writing that do not go together. */
function mixedUp({ options, argument }: Asked): Refusal | undefined {
  const isGiven = (option: string): boolean => options[option] !== undefined;
  if (options['filed'] !== true) {
    const alone = ['on', 'dryRun'].find(isGiven);
    if (alone === undefined) return undefined;
    const value = options[alone];
    const flag = [FLAGS[alone], ...(typeof value === 'string' ? [value] : [])].join(' ');
    const whole = [
      'saggar quarter',
      ...(argument === undefined ? [] : [argument]),
      '--filed',
      flag,
    ];
    return {
      refused: `${flag} goes with --filed, which writes what was filed: ${whole.join(' ')}`,
    };
  }
  const odd = ['as', 'at', 'taxRate'].find(isGiven);
  return odd === undefined
    ? undefined
    : { refused: `--filed writes what was filed; leave out ${FLAGS[odd] ?? ''}` };
}

const FLAGS: Readonly<Record<string, string>> = {
  on: '--on',
  dryRun: '--dry-run',
  as: '--as',
  at: '--at',
  taxRate: '--tax-rate',
};

const showQuarter: Command = (asked, world) =>
  showAnswer(asked, world, (found) => newAnswer(found, { asked, world, load: () => load(world) }));

async function load(world: World): Promise<MakeTableLater> {
  return (await import('./tables/quarter.ts')).quarterSinceClosed(world);
}
