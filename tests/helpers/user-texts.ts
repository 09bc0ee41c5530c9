/** Every text of the program that a person may read, with the place that it is from. */
import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve, sep, relative } from 'node:path';
import ts from 'typescript';

const ROOT = resolve(import.meta.dirname, '../..');

export interface UserText {
  readonly at: string;
  readonly text: string;
}

/** The pages that users read, and what a new studio is made of; DEVELOPERS.md and CHANGELOG.md are for others. */
const PAGES =
  /^(?:README\.md|example-studio\/README\.md|schema\/.*\.(?:md|ya?ml)|src\/reckon\/.*\.md|schema\/for-git\/hooks\/.*)$/;

/** All of them: texts in the sources and schemas, pages, and what a new studio is made of. */
export function userTexts(): readonly UserText[] {
  const files = ['src', 'schema', 'example-studio'].flatMap(filesBelow);
  return ['README.md', ...files].flatMap((file) => {
    if (/^src\/.*\.ts$/.test(file)) return textsInSource(file, readIn(file));
    if (/^schema\/[a-z]+\.json$/.test(file)) return textsInSchema(file, readIn(file));
    return PAGES.test(file) ? paragraphs(file, readIn(file)) : [];
  });
}

function filesBelow(folder: string): readonly string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ parentPath, name }) => relative(ROOT, join(parentPath, name)).split(sep).join('/'))
    .filter((file) => /\/(?:[^/]*\.\w+|hooks\/.+)$/.test(file))
    .sort();
}

function readIn(file: string): string {
  return readFileSync(join(ROOT, file), 'utf8');
}

/** The literals and templates of a source that are more than one word, or begin like a head. */
export function textsInSource(file: string, source: string): readonly UserText[] {
  const parsed = ts.createSourceFile(file, source, ts.ScriptTarget.Latest);
  const found: UserText[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isLiteralTypeNode(node)) return;
    const text = textOfNode(node);
    if (text !== undefined && /\s|^[A-Z]/.test(text.trim())) {
      const { line } = parsed.getLineAndCharacterOfPosition(node.getStart(parsed));
      found.push({ at: `${file}:${String(line + 1)}`, text });
    }
    ts.forEachChild(node, visit);
  };
  visit(parsed);
  return found;
}

function textOfNode(node: ts.Node): string | undefined {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return undefined;
  return [node.head.text, ...node.templateSpans.map(({ literal }) => literal.text)].join('…');
}

/** The titles and descriptions of a schema. */
export function textsInSchema(file: string, schema: string): readonly UserText[] {
  const found: UserText[] = [];
  JSON.parse(schema, (key, value: unknown) => {
    if ((key === 'title' || key === 'description') && typeof value === 'string')
      found.push({ at: `${file} ${key}`, text: value });
    return value;
  });
  return found;
}

function paragraphs(file: string, text: string): readonly UserText[] {
  let line = 1;
  return text.split(/\n(?=[ \t]*\n)/).map((part) => {
    const at = `${file}:${String(line)}`;
    line += part.split('\n').length;
    return { at, text: part };
  });
}
