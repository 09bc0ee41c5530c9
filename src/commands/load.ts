/** What carries each command out; nothing of it is loaded before it is run. */
import type { CommandName, CommandOf } from './catalogue.ts';
import type { Report, ReportOptions } from './reports/show.ts';
import type { Command } from './world.ts';

type Loaders = { readonly [N in CommandName]: () => Promise<CommandOf<N>> };

const LOADERS: Loaders = {
  init: async () => (await import('./studio/init.ts')).init,
  day: async () => (await import('./reports/day.ts')).day,
  check: async () => (await import('./review/check.ts')).check,
  tidy: async () => (await import('./records/tidy.ts')).tidy,
  show: async () => (await import('./records/show.ts')).show,
  add: async () => (await import('./records/add.ts')).addRecords,
  unload: async () => (await import('./records/unload.ts')).unload,
  gone: async () => (await import('./records/gone.ts')).gone,
  revise: async () => (await import('./records/revise.ts')).revise,
  amend: async () => (await import('./records/amend.ts')).amend,
  'take-in': async () => (await import('./lists/take-in.ts')).takeInList,
  remove: async () => (await import('./records/remove.ts')).remove,
  materials: showing(async () => (await import('./reports/materials.ts')).materials),
  firings: showing(async () => (await import('./reports/firings.ts')).firings),
  losses: showing(async () => (await import('./reports/losses.ts')).losses),
  income: showing(async () => (await import('./reports/income.ts')).income),
  pieces: showing(async () => (await import('./reports/pieces.ts')).pieces),
  costs: showing(async () => (await import('./reports/costs.ts')).costs),
  quarter: async () => (await import('./reports/quarter.ts')).quarter,
  galleries: showing(async () => (await import('./reports/galleries.ts')).galleries),
  weigh: showing(async () => (await import('./reports/weigh.ts')).weigh),
  recipes: showing(async () => (await import('./reports/recipes.ts')).recipes),
  kilns: showing(async () => (await import('./reports/kilns.ts')).kilns),
  orders: showing(async () => (await import('./reports/orders.ts')).orders),
  plan: showing(async () => (await import('./reports/plan.ts')).plan),
  fairs: showing(async () => (await import('./reports/fairs.ts')).fairs),
  trace: showing(async () => (await import('./tracing/trace.ts')).trace),
  tests: showing(async () => (await import('./tracing/tests.ts')).tests),
  clays: showing(async () => (await import('./tracing/clays.ts')).clays),
  claims: showing(async () => (await import('./tracing/claims.ts')).claims),
  match: async () => (await import('./lists/match.ts')).match,
  paper: async () => (await import('./papers/paper.ts')).paper,
  review: async () => (await import('./review/review.ts')).review,
  export: async () => (await import('./reports/export.ts')).exportBook,
  forget: async () => (await import('./studio/forget.ts')).forget,
  completion: async () => (await import('./completing/completion.ts')).completion,
  help: async () => (await import('./help-asked.ts')).help,
  man: async () => (await import('./man.ts')).man,
  'complete-words': async () => (await import('./completing/complete-words.ts')).completeWords,
};

function showing<O extends ReportOptions>(
  load: () => Promise<Report<O>>,
): () => Promise<Command<O>> {
  return async () => {
    const { showReport } = await import('./reports/show.ts');
    return (asked, world) => showReport(asked, world, load);
  };
}

/** Loads the command of a name in the catalogue; what it is asked is of that command's own options. */
export function loadCommand(name: string): Promise<Command> {
  return LOADERS[name as CommandName]() as Promise<Command>;
}
