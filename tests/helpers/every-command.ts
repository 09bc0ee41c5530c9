/** A line for every command on the small studio in git, with a branch `main` and one on top of it. */

const AT = ['--at', 'main'];

/** What is typed for each command, so that it asks git where it ever does. */
export const TYPED: Readonly<Record<string, readonly (readonly string[])[]>> = {
  init: [['.', '--with', 'hooks,workflow,editor']],
  day: [[], ['--long', '--as', 'json'], AT],
  check: [[], ['--as', 'annotations'], AT, ['--at', 'PARTIAL'], ['--since', 'HEAD']],
  tidy: [[]],
  add: [
    ['used', '--material', 'kaolin', '--quantity', '1 kg', '--no-input'],
    ['sales', '--channel', 'market', '--line', '1 mug at 38', '--no-input'],
  ],
  unload: [['f260430ef', '--line', '6 first', '--no-input']],
  show: [['s260402cd'], ['mug', '--as', 'json']],
  gone: [['1 mug', '--why', 'gift', '--no-input']],
  revise: [['celadon', 'kaolin 5', '--no-input']],
  amend: [['s260402cd', 'lines.1.price=40']],
  remove: [['k260418mt']],
  'take-in': [['list.csv', '--by', 'shop']],
  match: [['list.csv', '--by', 'shop']],
  materials: [AT],
  firings: [AT],
  losses: [AT],
  income: [AT],
  pieces: [AT],
  costs: [AT],
  quarter: [['2026-Q1'], AT, ['2026-Q1', '--filed', '--sheet', 'plain']],
  galleries: [AT],
  weigh: [
    ['celadon', '1 kg'],
    ['celadon', '1 kg', ...AT],
  ],
  recipes: [[], ['celadon'], AT],
  kilns: [[], AT],
  orders: [[], AT],
  plan: [[], AT],
  fairs: [AT, ['--bring']],
  paper: [
    ['invoice', 's260402cd'],
    ['invoice', 's260402cd', '--number', '--series', 'A'],
  ],
  trace: [['s260402cd'], ['mug', ...AT]],
  claims: [[], AT],
  tests: [[], AT],
  clays: [[], AT],
  forget: [[]],
  review: [['main'], ['main', 'work'], ['main..PARTIAL']],
  export: [['OUT'], ['OUT-then', ...AT]],
  completion: [['bash']],
  man: [[]],
  help: [['add', 'firings']],
  'complete-words': [['amend', 's26']],
};

/** Each line with the command's name in front of it. */
export const LINES: readonly (readonly string[])[] = Object.entries(TYPED).flatMap(([name, each]) =>
  each.map((words) => [name, ...words]),
);
