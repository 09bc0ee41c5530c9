/** Texts as they stand in a studio's files, and slips of the hand that change them. */
import fc from 'fast-check';

const SALES = `# the spring fair
s260308kt:
  date: 2026-03-08
  channel: spring-fair
  buyer: "A. Potter's friend"
  lines:
    - { product: mug, count: 2, price: 38.00 }
    - {product: bowl, glaze: chun-blue, count: 1, price: 52}
    - product: vase
      count: 1
      price: 120.00 # the tall one
      discount: 10%
  note: paid in cash, wanted the larger one

s260309ab:
  date: 2026-03-09
  channel: shop
  lines:
  - product: teapot
    count: 1
    price: 88.50
`;

const FIRINGS = `f260301aa:
  date: 2026-03-01
  kiln: front-loader
  kind: glaze
  cone: "6"
  peak: 1222 °C
  hours: 9.5
  started: 06:30
  energy: 71.4 kWh
  load:
    - lot: p260101ab
      in: 12
      first: 10
      second: 1
      lost: 1
      why: { crawled: 1 }
    - { lot: p260102cd, in: 4, first: 4 }
  note: |
    slow cooling

    from 1000 down
`;

const BOUGHT = `b260105xy:
  date: 2026-01-05
  supplier: Clay House
  invoice: '0044'
  lines:
    - { material: stoneware, quantity: 8 x 25 kg, cost: 212.40, lot: "0713" }
    - { material: silica, quantity: 50 lb, cost: 31 }
  freight: 12.50
  share-freight-by: weight
  contains: [ silica, "manganese", 'chromium' ]
  empty:
  last: ''
`;

const SIGNS = [
  ...['"', "'", ':', ': ', ' #', '#', '- ', '-', '\t', ' ', '  ', '{', '}', '[', ']', ',', ', '],
  ...[
    '|',
    '>',
    '|\n',
    '>-\n',
    '&a ',
    '*a',
    '!b ',
    '%',
    '@',
    '`',
    '? ',
    '?',
    '\n',
    '\r\n',
    '\r',
    '\n\n',
  ],
  ...[
    '---\n',
    '...\n',
    '\n  ',
    '\n    ',
    '\n\t',
    '\n   \n',
    'é',
    '½',
    '“',
    '\u00a0',
    '\u2028',
    '\u0085',
  ],
  ...[
    '\ufeff',
    '\0',
    '\x07',
    '\ud83c\udffa',
    '<<: ',
    '<<<<<<< HEAD\n',
    '~',
    'null',
    '\\',
    '\\"',
    '0x1f',
    '.5',
  ],
  ...['count: ', 'price: 04\n', '\nx:', '\n- ', '\nconstructor: 1\n', '__proto__: 1', 'a: b: c'],
];

interface Slip {
  readonly does:
    'drop' | 'put' | 'double' | 'dropLine' | 'doubleLine' | 'indent' | 'outdent' | 'trail';
  readonly at: number;
  readonly sign: string;
}

const slip: fc.Arbitrary<Slip> = fc.record({
  does: fc.constantFrom(
    'drop',
    'put',
    'put',
    'put',
    'double',
    'dropLine',
    'doubleLine',
    'indent',
    'outdent',
    'trail',
  ),
  at: fc.nat(4000),
  sign: fc.constantFrom(...SIGNS),
});

/** A studio's file with a few slips in it, in LF or CRLF. */
export const mistypedText: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom(SALES, FIRINGS, BOUGHT, SALES + FIRINGS),
    fc.array(slip, { maxLength: 4 }),
    fc.constantFrom('\n', '\n', '\r\n'),
  )
  .map(([text, slips, eol]) => slips.reduce(mistype, text).replaceAll('\n', eol));

function mistype(text: string, { does, at, sign }: Slip): string {
  const offset = at % (text.length + 1);
  if (does === 'drop') return text.slice(0, offset) + text.slice(offset + 1);
  if (does === 'put') return text.slice(0, offset) + sign + text.slice(offset);
  if (does === 'double') return text.slice(0, offset) + text.slice(Math.max(0, offset - 1));
  return mistypeLine(text.split('\n'), does, at);
}

function mistypeLine(lines: readonly string[], does: Slip['does'], at: number): string {
  const index = at % lines.length;
  const line = lines[index] ?? '';
  return lines.toSpliced(index, 1, ...changed(line, does)).join('\n');
}

function changed(line: string, does: Slip['does']): string[] {
  if (does === 'dropLine') return [];
  if (does === 'doubleLine') return [line, line];
  if (does === 'indent') return [` ${line}`];
  if (does === 'outdent') return [line.replace(/^ /, '')];
  return [`${line}  `];
}
