/** What carries each command out; nothing of it is loaded before it is run. */
import type { CommandName, CommandOf } from './catalogue.ts';
import type { Report, ReportOptions } from './show.ts';
import type { Command } from './world.ts';

type Loaders = { readonly [N in CommandName]: () => Promise<CommandOf<N>> };

const LOADERS: Loaders = {
  init: async () => (await import('./init.ts')).init,
  day: async () => (await import('./day.ts')).day,
  check: async () => (await import('./check.ts')).check,
  tidy: async () => (await import('./tidy.ts')).tidy,
  add: async () => (await import('./add.ts')).addRecords,
  unload: async () => (await import('./unload.ts')).unload,
  amend: async () => (await import('./amend.ts')).amend,
  remove: async () => (await import('./remove.ts')).remove,
  materials: showing(async () => (await import('./tables/materials.ts')).materials),
  firings: showing(async () => (await import('./tables/firings.ts')).firings),
  losses: showing(async () => (await import('./tables/losses.ts')).losses),
  income: showing(async () => (await import('./tables/income.ts')).income),
  pieces: showing(async () => (await import('./tables/pieces.ts')).pieces),
  costs: showing(async () => (await import('./tables/costs.ts')).costs),
  quarter: async () => (await import('./quarter.ts')).quarter,
  galleries: showing(async () => (await import('./tables/galleries.ts')).galleries),
  fairs: showing(async () => (await import('./tables/fairs.ts')).fairs),
  review: async () => (await import('./review.ts')).review,
  export: async () => (await import('./export.ts')).exportBook,
  forget: async () => (await import('./forget.ts')).forget,
  completion: async () => (await import('./completion.ts')).completion,
  man: async () => (await import('./man.ts')).man,
  'complete-words': async () => (await import('./complete-words.ts')).completeWords,
};

function showing<O extends ReportOptions>(
  load: () => Promise<Report<O>>,
): () => Promise<Command<O>> {
  return async () => {
    const { showReport } = await import('./show.ts');
    return (asked, world) => showReport(asked, world, load);
  };
}

/** Loads the command of a name in the catalogue; what it is asked is of that command's own options. */
export function loadCommand(name: string): Promise<Command> {
  return LOADERS[name as CommandName]() as Promise<Command>;
}
