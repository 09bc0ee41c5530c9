/** The house rules on rooms and names: no circles of files, small folders, one name for one thing. */
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join, resolve, sep } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '..', 'src');

/** The most files in a folder; the rules of `check` stand one a file. */
const MOST_FILES = 26;
const ONE_A_FILE = ['check/rules'];

interface Module {
  readonly file: string;
  /** Files of ours that it imports, or exports from; types too. */
  readonly imports: readonly string[];
  readonly types: readonly string[];
  /** What it declares at its top beside types. */
  readonly values: readonly string[];
  readonly exported: readonly string[];
  /** Functions with more than three parameters, wherever those stand. */
  readonly overlong: readonly string[];
}

const MODULES = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .map((file) => file.split(sep).join('/'))
  .map((file) => moduleOf(file, readFileSync(join(SRC, file), 'utf8')));

function moduleOf(file: string, text: string): Module {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const declared = source.statements.flatMap(declaredBy);
  return {
    file,
    imports: source.statements.flatMap((each) => importedBy(each, file)),
    types: declared.filter(({ isType }) => isType).map(({ name }) => name),
    values: declared.filter(({ isType }) => !isType).map(({ name }) => name),
    exported: declared.filter(({ isExported }) => isExported).map(({ name }) => name),
    overlong: overlong(source, file),
  };
}

function importedBy(statement: ts.Statement, file: string): string[] {
  const isNaming = ts.isImportDeclaration(statement) || ts.isExportDeclaration(statement);
  const from = isNaming ? statement.moduleSpecifier : undefined;
  if (!from || !ts.isStringLiteral(from) || !from.text.startsWith('.')) return [];
  return [join(dirname(file), from.text).split(sep).join('/')];
}

interface Declared {
  readonly name: string;
  readonly isType: boolean;
  readonly isExported: boolean;
}

function declaredBy(statement: ts.Statement): Declared[] {
  const isType = ts.isInterfaceDeclaration(statement) || ts.isTypeAliasDeclaration(statement);
  const modifiers = ts.canHaveModifiers(statement) ? (ts.getModifiers(statement) ?? []) : [];
  const isExported = modifiers.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword);
  return namesOf(statement).map((name) => ({ name, isType, isExported }));
}

/** Names at the top of a module; of a function with several signatures once. */
function namesOf(statement: ts.Statement): string[] {
  if (ts.isVariableStatement(statement))
    return statement.declarationList.declarations.map(({ name }) => name.getText());
  const isNamed =
    ts.isInterfaceDeclaration(statement) ||
    ts.isTypeAliasDeclaration(statement) ||
    ts.isClassDeclaration(statement) ||
    (ts.isFunctionDeclaration(statement) && statement.body !== undefined);
  return isNamed && statement.name ? [statement.name.text] : [];
}

/** Files that come back to themselves by what they import, the first circle of each found whole. */
function circles(modules: readonly Module[]): string[] {
  const importsOf = new Map(modules.map(({ file, imports }) => [file, imports]));
  const done = new Set<string>();
  const found: string[] = [];
  const walk = (file: string, way: readonly string[]): void => {
    if (way.includes(file)) found.push([...way.slice(way.indexOf(file)), file].join(' > '));
    if (done.has(file) || way.includes(file)) return;
    for (const next of importsOf.get(file) ?? []) walk(next, [...way, file]);
    done.add(file);
  };
  for (const { file } of modules) walk(file, []);
  return found;
}

/** Names that stand in so many files or more, with the files. */
function shared(names: (each: Module) => readonly string[], least: number): string[] {
  const places = new Map<string, Set<string>>();
  for (const each of MODULES)
    for (const name of names(each))
      places.set(name, (places.get(name) ?? new Set<string>()).add(each.file));
  return [...places]
    .filter(([, files]) => files.size >= least)
    .map(([name, files]) => `${name}: ${[...files].join(', ')}`);
}

/** Parameters with those that stand in a tuple, or in a rest of one, counted each. */
function parametersOf(node: ts.FunctionDeclaration): number {
  const counts = node.parameters.map(({ type }) => {
    const bare = type && ts.isTypeOperatorNode(type) ? type.type : type;
    return bare && ts.isTupleTypeNode(bare) ? bare.elements.length : 1;
  });
  return counts.reduce((sum, count) => sum + count, 0);
}

function overlong(source: ts.SourceFile, file: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionDeclaration(node) && parametersOf(node) > 3)
      found.push(`${file}: ${node.name?.text ?? ''}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

describe('rooms', () => {
  it('have no circles of files', () => {
    expect(circles(MODULES)).toEqual([]);
  });

  it('a planted circle is found, by types too', () => {
    const planted = [
      moduleOf('a.ts', `import { b } from './b.ts';`),
      moduleOf('b.ts', `export { c } from './c.ts';`),
      moduleOf('c.ts', `import type { A } from './a.ts';`),
    ];
    expect(circles(planted)).toEqual(['a.ts > b.ts > c.ts > a.ts']);
  });

  it('are small enough to be looked over', () => {
    const counts = new Map<string, number>();
    for (const { file } of MODULES) counts.set(dirname(file), (counts.get(dirname(file)) ?? 0) + 1);
    const large = [...counts].filter(
      ([folder, count]) => count > MOST_FILES && !ONE_A_FILE.includes(folder),
    );
    expect(large).toEqual([]);
  });
});

describe('a name', () => {
  it('is exported by one module', () => {
    expect(shared(({ exported }) => exported, 2)).toEqual([]);
  });

  it('of a type is declared once', () => {
    expect(shared(({ types }) => types, 2)).toEqual([]);
  });

  it('of anything else is not declared in three files', () => {
    expect(shared(({ values }) => values, 3)).toEqual([]);
  });
});

describe('a function', () => {
  it('takes no list of parameters folded into one', () => {
    expect(MODULES.flatMap((each) => each.overlong)).toEqual([]);
  });

  it('that does is found', () => {
    const planted = 'function f(a: A, [b, c]: readonly [B, C], ...[d]: [D?]): void {}';
    expect(moduleOf('a.ts', planted).overlong).toEqual(['a.ts: f']);
  });
});
