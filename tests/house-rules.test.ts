import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { forgesOutput } from './helpers/forged-output.ts';

const ROOT = resolve(import.meta.dirname, '..');
const SOURCES = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .map((file) => `src/${file.split(sep).join('/')}`)
  .sort();

/** What each stage may import of ours, beside its own folder; files right under src are named in full. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  number: [],
  'problem.ts': ['book.ts'],
  'camel-case.ts': [],
  'digest.ts': [],
  'in-force.ts': ['book.ts'],
  'in-words.ts': [],
  'among.ts': ['number'],
  'nearest.ts': [],
  'once.ts': [],
  'attempt.ts': [],
  'groups.ts': [],
  'grouping.ts': [],
  'fold.ts': ['problem.ts'],
  'text-order.ts': [],
  'definitions.ts': ['number'],
  'settings.ts': ['number', 'definitions.ts'],
  'events.ts': ['number', 'definitions.ts'],
  'money-events.ts': ['number', 'definitions.ts', 'events.ts'],
  'book.ts': ['definitions.ts', 'events.ts', 'money-events.ts', 'settings.ts'],
  memory: [],
  read: ['book.ts', 'definitions.ts', 'memory', 'problem.ts', 'number', 'schema'],
  reckon: ['book.ts', 'definitions.ts', 'events.ts', 'groups.ts', 'problem.ts', 'number', 'schema'],
  check: [
    'book.ts',
    'definitions.ts',
    'events.ts',
    'problem.ts',
    'number',
    'reckon',
    'read',
    'schema',
  ],
  review: ['book.ts', 'groups.ts', 'problem.ts', 'number', 'reckon', 'check', 'report', 'schema'],
  report: ['book.ts', 'groups.ts', 'problem.ts', 'number', 'reckon', 'check'],
  render: [
    'problem.ts',
    'number',
    'report/table.ts',
    'report/day/sheet.ts',
    'report/page.ts',
    'report/papers/paper.ts',
    'review',
  ],
  export: ['book.ts', 'number', 'render', 'report', 'schema'],
  write: ['book.ts', 'problem.ts', 'memory', 'number', 'read', 'schema'],
  entry: ['book.ts', 'problem.ts', 'number', 'check', 'reckon', 'read', 'write', 'schema'],
};

/** What imports nothing of ours but types, and may be imported anywhere. */
const PLAIN_WORK = [
  'camel-case.ts',
  'digest.ts',
  'fold.ts',
  'grouping.ts',
  'home.ts',
  'in-force.ts',
  'in-words.ts',
  'among.ts',
  'attempt.ts',
  'nearest.ts',
  'once.ts',
  'text-order.ts',
];

interface Import {
  readonly from: string;
  readonly to: string;
}

function importsOf(file: string): Import[] {
  const text = readFileSync(join(ROOT, file), 'utf8');
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => ({
    from: file,
    to: fileName.startsWith('.')
      ? relative(ROOT, resolve(ROOT, dirname(file), fileName))
          .split(sep)
          .join('/')
      : fileName,
  }));
}

const IMPORTS = SOURCES.flatMap(importsOf);

function stageOf(file: string): string {
  return file.replace(/^src\//, '').split('/')[0] ?? file;
}

function isAllowed({ from, to }: Import): boolean {
  const allowed = MAY_IMPORT[stageOf(from)];
  if (!allowed || !/^(src|schema)\//.test(to) || stageOf(to) === stageOf(from)) return true;
  const target = to.replace(/^src\//, '');
  return [...allowed, ...PLAIN_WORK].some(
    (each) => target === each || target.startsWith(`${each}/`),
  );
}

function shown({ from, to }: Import): string {
  return `${from} imports ${to}`;
}

describe('import directions', () => {
  it('run one way', () => {
    expect(IMPORTS.filter((each) => !isAllowed(each)).map(shown)).toEqual([]);
  });

  it('a planted import against the stream is seen', () => {
    expect(isAllowed({ from: 'src/reckon/stock/pool.ts', to: 'src/report/head.ts' })).toBe(false);
    expect(isAllowed({ from: 'src/number/cone.ts', to: 'src/book.ts' })).toBe(false);
  });

  it.each([
    ['decimal.js', ['src/number/decimal.ts']],
    ['commander', ['src/command-line.ts']],
    ['cli-table3', ['src/render/terminal/cli-table.ts']],
    ['fflate', ['src/export/archive.ts']],
    ['csv-parse/sync', ['src/entry/lists/table.ts']],
    ['node:child_process', ['src/read/git/run.ts']],
  ])('%s is imported in one place only', (name, places) => {
    expect(IMPORTS.filter(({ to }) => to === name).map(({ from }) => from)).toEqual(places);
  });

  it('only reading, writing and remembering touch the disk', () => {
    const touching = IMPORTS.filter(({ to }) => /^(node:)?fs(\/promises)?$/.test(to));
    const stages = new Set(touching.map(({ from }) => stageOf(from)));
    expect([...stages].sort()).toEqual(['memory', 'read', 'write']);
  });
});

const program = ts.createProgram(
  SOURCES.map((file) => join(ROOT, file)),
  {
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    allowImportingTsExtensions: true,
    noEmit: true,
    strict: true,
    types: ['node'],
  },
);
const checker = program.getTypeChecker();

/** Visits every node of every source file. */
function everywhere(look: (node: ts.Node, file: string) => string | undefined): string[] {
  const found: string[] = [];
  for (const file of SOURCES) {
    const source = program.getSourceFile(join(ROOT, file));
    const visit = (node: ts.Node): void => {
      const words = look(node, file);
      if (words !== undefined && source) {
        const { line } = source.getLineAndCharacterOfPosition(node.getStart());
        found.push(`${file}:${String(line + 1)} ${words}`);
      }
      ts.forEachChild(node, visit);
    };
    if (source) visit(source);
  }
  return found;
}

function isDecimal(node: ts.Node): boolean {
  const type = checker.getNonNullableType(checker.getTypeAtLocation(node));
  // A primitive has no symbol, whatever the compiler's own types say.
  const symbol = (type.aliasSymbol ?? type.symbol) as ts.Symbol | undefined;
  return symbol?.name === 'Decimal';
}

const COMPARING = new Set([
  ts.SyntaxKind.LessThanToken,
  ts.SyntaxKind.GreaterThanToken,
  ts.SyntaxKind.LessThanEqualsToken,
  ts.SyntaxKind.GreaterThanEqualsToken,
  ts.SyntaxKind.EqualsEqualsToken,
  ts.SyntaxKind.EqualsEqualsEqualsToken,
  ts.SyntaxKind.ExclamationEqualsToken,
  ts.SyntaxKind.ExclamationEqualsEqualsToken,
]);

function comparesDecimals(node: ts.Node, file: string): string | undefined {
  if (file === 'src/number/decimal.ts' || !ts.isBinaryExpression(node)) return undefined;
  if (!COMPARING.has(node.operatorToken.kind)) return undefined;
  if (!isDecimal(node.left) || !isDecimal(node.right)) return undefined;
  return `compares decimals by ${node.operatorToken.getText()}`;
}

function sortsWithoutComparing(node: ts.Node): string | undefined {
  if (!ts.isCallExpression(node) || !ts.isPropertyAccessExpression(node.expression))
    return undefined;
  const isBareSort =
    /^(sort|toSorted)$/.test(node.expression.name.text) && node.arguments.length === 0;
  if (!isBareSort) return undefined;
  const sorted = checker.getTypeAtLocation(node.expression.expression);
  // Arrays of numbers alone are sorted as numbers.
  if (sorted.symbol.name === 'Float64Array') return undefined;
  const element = checker.getIndexTypeOfType(sorted, ts.IndexKind.Number);
  const isText = element !== undefined && (element.flags & ts.TypeFlags.StringLike) !== 0;
  return isText || element?.isUnion() ? undefined : 'sorts what is not text without a comparison';
}

function namesProcess(node: ts.Node, file: string): string | undefined {
  const isProcess = ts.isIdentifier(node) && node.text === 'process';
  return isProcess && file !== 'src/cli.ts' ? 'names process' : undefined;
}

function readsTheWorld(node: ts.Node, file: string): string | undefined {
  if (file === 'src/cli.ts') return undefined;
  const text =
    ts.isCallExpression(node) || ts.isNewExpression(node) ? node.expression.getText() : '';
  return /^(Date|Date\.now|Math\.random|performance\.now)$/.test(text)
    ? `reads the world by ${text}`
    : undefined;
}

describe('code', () => {
  it('the checks below know a decimal when they see one', () => {
    const decimals = everywhere((node) =>
      ts.isIdentifier(node) && isDecimal(node) ? node.text : undefined,
    );
    expect(decimals.length).toBeGreaterThan(500);
  });

  it('never compares or sorts decimals as text', () => {
    expect(everywhere(comparesDecimals)).toEqual([]);
    expect(everywhere(sortsWithoutComparing)).toEqual([]);
  });

  it('names process and reads clock and chance in the command line only', () => {
    expect(everywhere(namesProcess)).toEqual([]);
    expect(everywhere(readsTheWorld)).toEqual([]);
  });

  it('lets nothing out but what was escaped where printable text is made', () => {
    expect(everywhere((node, file) => forgesOutput(node, file, checker))).toEqual([]);
  });

  it('begins each module with a sentence on what it is for', () => {
    const heads = SOURCES.filter(
      (file) =>
        !/^\/\*\* [A-Z`]/.test(readFileSync(join(ROOT, file), 'utf8')) &&
        !/^\/\*\*\n \* [A-Z`]/.test(readFileSync(join(ROOT, file), 'utf8')),
    );
    expect(heads).toEqual([]);
  });

  it('has no folder for odds and ends', () => {
    expect(SOURCES.filter((file) => /\/(utils?|helpers?|common|misc|lib)\b/.test(file))).toEqual(
      [],
    );
  });

  it('is tested by no mocks of modules', () => {
    const tests = readdirSync(join(ROOT, 'tests'), { recursive: true, encoding: 'utf8' });
    const mocking = tests.filter(
      (file) =>
        file.endsWith('.test.ts') &&
        file !== 'house-rules.test.ts' &&
        /\bvi\.(mock|doMock)\(/.test(readFileSync(join(ROOT, 'tests', file), 'utf8')),
    );
    expect(mocking).toEqual([]);
  });
});
