/** Random block YAML by a grammar: wider than what the fast reader takes, so that it has to choose. */
import fc from 'fast-check';

/** Content before it is written down. */
type Tree = string | readonly Tree[] | { readonly pairs: readonly (readonly [string, Tree])[] };

const WORDS = [
  'mug',
  'celadon',
  'lead-days',
  'x',
  'Kiln',
  'a1',
  'count',
  'price',
  'note',
  'constructor',
];

const TEXTS = [
  ...[
    '4',
    '04',
    '38.00',
    '2026-03-08',
    '12.5 kg',
    'true',
    'null',
    '~',
    '',
    '.5',
    '1e3',
    '0x1f',
    '-',
  ],
  ...[
    'two words',
    "it's",
    'say "so"',
    'a: b',
    'a #b',
    'a#b',
    'http://x/y',
    '#c',
    '- d',
    '@e',
    'é½',
    '',
  ],
  ...[
    '16:00-21:00',
    'a, b',
    '[c]',
    '{d}',
    ' blank',
    'blank ',
    'back\\slash',
    '*f',
    '&g',
    '!h',
    '%i',
  ],
];

// Most scalars of a studio are plain words and figures.
const USUAL = ['mug', '4', '38.00', '2026-03-08', '12.5 kg', 'two words', 'shop', '10%', 'no', '6'];

const LINES = [
  ...TEXTS,
  ' ',
  '   ',
  '\t',
  '  deeper',
  '# no comment',
  'two\u2009thin',
  'key: value',
];

const { tree } = fc.letrec<{ tree: Tree; list: Tree; map: Tree }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4 },
    { weight: 6, arbitrary: fc.constantFrom(...USUAL) },
    { weight: 2, arbitrary: fc.constantFrom(...TEXTS) },
    {
      weight: 1,
      arbitrary: fc
        .array(fc.constantFrom(...LINES), { maxLength: 4 })
        .map((lines) => lines.join('\n')),
    },
    { weight: 2, arbitrary: tie('list') },
    { weight: 3, arbitrary: tie('map') },
  ),
  list: fc.array(tie('tree'), { maxLength: 4 }),
  map: fc
    .array(fc.tuple(fc.constantFrom(...WORDS), tie('tree')), { maxLength: 4 })
    .map((pairs) => ({ pairs })),
}));

const root = fc
  .array(fc.tuple(fc.constantFrom(...WORDS), tree), { minLength: 1, maxLength: 4 })
  .map((pairs) => ({ pairs }));

/** Random choices of style, in the order in which they are asked for; the usual ones come first. */
type Choose = <T>(options: readonly T[]) => T;

const DRAWS = 5040;

function chooser(numbers: readonly number[], tameness: number): Choose {
  let asked = 0;
  return (options) => {
    const share = (numbers[asked++ % numbers.length] ?? 0) / DRAWS;
    return options[Math.floor(share ** tameness * options.length)]!;
  };
}

/** A text of block YAML, from the usual styles to all that the grammar has; mostly sound. */
export const blockYaml: fc.Arbitrary<string> = fc
  .tuple(
    root,
    fc.array(fc.nat(DRAWS - 1), { minLength: 16, maxLength: 64 }),
    fc.constantFrom(1, 3, 8, 16),
  )
  .map(([content, numbers, tameness]) => {
    const choose = chooser(numbers, tameness);
    const eol = choose(['\n', '\n', '\n', '\r\n']);
    const lines = [...head(choose), ...mapLines(content.pairs, '', choose)];
    return lines.join(eol) + choose([eol, eol, '', eol + eol]);
  });

function head(choose: Choose): string[] {
  return choose([[], [], [], [], ['# made up'], [''], ['---'], ['--- # start']]);
}

function mapLines(
  pairs: readonly (readonly [string, Tree])[],
  margin: string,
  choose: Choose,
): string[] {
  return pairs.flatMap(([word, value], index) => {
    const key = keyText(
      index === 0 ? word : word + String(index * choose([1, 1, 1, 1, 1, 1, 0])),
      choose,
    );
    return [
      ...between(margin, choose),
      ...valueLines(`${margin}${key}:`, value, { margin, choose }),
    ];
  });
}

function keyText(word: string, choose: Choose): string {
  return choose([
    word,
    word,
    word,
    word,
    word,
    word,
    word,
    `"${word}"`,
    `'${word}'`,
    `${word} `,
    `? ${word}\n`,
  ]);
}

function between(margin: string, choose: Choose): string[] {
  return choose([
    [],
    [],
    [],
    [],
    [],
    [''],
    ['   '],
    [`${margin}# of it`],
    ['# at the margin'],
    ['\t'],
  ]);
}

interface Site {
  readonly margin: string;
  readonly choose: Choose;
}

/** The lines of a key or dash with its value. */
function valueLines(lead: string, value: Tree, { margin, choose }: Site): string[] {
  if (typeof value === 'string') return scalarLines(lead, value, { margin, choose });
  const flow = choose([false, false, true]) ? flowText(value, choose) : undefined;
  const after = choose(['', '', ' ', ' # so', '  #']);
  if (flow !== undefined) return [`${lead} ${flow}${after}`];
  const step = choose(['  ', '  ', '  ', '    ', ' ']);
  if ('pairs' in value) return [`${lead}${after}`, ...mapLines(value.pairs, margin + step, choose)];
  const listMargin = choose([margin + step, margin + step, margin]);
  return [`${lead}${after}`, ...listLines(value, listMargin, choose)];
}

function listLines(items: readonly Tree[], margin: string, choose: Choose): string[] {
  return items.flatMap((item) => {
    const gap = choose([' ', ' ', ' ', '   ']);
    const lines = itemLines(item, { margin, gap, choose });
    return [...between(margin, choose), ...lines];
  });
}

function itemLines(item: Tree, { margin, gap, choose }: Site & { gap: string }): string[] {
  const inner = margin + ' '.repeat(1 + gap.length);
  const compact = choose([true, true, true, false]);
  if (typeof item === 'string' || !compact)
    return valueLines(`${margin}-`, item, { margin, choose });
  const lines =
    'pairs' in item ? mapLines(item.pairs, inner, choose) : listLines(item, inner, choose);
  const [first = inner, ...rest] = lines;
  return first.startsWith(inner)
    ? [`${margin}-${gap}${first.slice(inner.length)}`, ...rest]
    : [`${margin}-`, ...lines];
}

function scalarLines(lead: string, text: string, site: Site): string[] {
  const { margin, choose } = site;
  const style = choose(['plain', 'plain', 'plain', 'double', 'single', 'block', 'block', 'below']);
  const after = choose(['', '', '', ' ', ' # so', '\t', '#']);
  const inner = margin + choose(['  ', '  ', ' ', '']);
  const lines = text.split('\n');
  if (style === 'block') return blockScalar(lead, lines, { inner, choose });
  if (style === 'below') return [lead, ...lines.map((line) => inner + line + after)];
  const [first = '', ...rest] = quoted(text, style).split('\n');
  return [`${lead} ${first}${rest.length > 0 ? '' : after}`, ...rest.map((line) => inner + line)];
}

function quoted(text: string, style: string): string {
  if (style === 'double') return `"${text.replace(/["\\]/g, '\\$&')}"`;
  if (style === 'single') return `'${text.replaceAll("'", "''")}'`;
  return text;
}

function blockScalar(
  lead: string,
  lines: readonly string[],
  { inner, choose }: { inner: string; choose: Choose },
): string[] {
  const header = choose(['|', '|', '>', '|-', '|+', '>-', '>+', '|2', '>1']);
  const trail = choose([[], [], [''], [`${inner} `], ['  '], [`${inner}   `, '']]);
  return [`${lead} ${header}`, ...lines.map((line) => (line === '' ? '' : inner + line)), ...trail];
}

function flowText(value: Tree, choose: Choose): string {
  if (typeof value === 'string')
    return quoted(value, choose(['plain', 'plain', 'double', 'single']));
  const comma = choose([', ', ', ', ',', ' , ', ',\n    ']);
  const pad = choose(['', ' ']);
  if (!('pairs' in value))
    return `[${pad}${value.map((item) => flowText(item, choose)).join(comma)}${pad}]`;
  const pairs = value.pairs.map(([key, item], index) => {
    const colon = choose([': ', ': ', ': ', ':', ' : ']);
    return `${key}${index === 0 ? '' : String(index)}${colon}${flowText(item, choose)}`;
  });
  return `{${pad}${pairs.join(comma)}${pad}}`;
}
