/** `npm run size`: counts lines of code, no blank lines and no comments, folder by folder. */
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join, sep } from 'node:path';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import ts from 'typescript';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/**
 * How many lines have a part of the code on them.
 * @param {string} text
 * @returns {number}
 */
export function codeLines(text) {
  const source = ts.createSourceFile('code.ts', text, ts.ScriptTarget.Latest);
  const written = text.split('\n').map((line) => line.trim() !== '');
  /** @type {Set<number>} */
  const lines = new Set();
  /** @type {(node: ts.Node) => void} */
  const visit = (node) => {
    if (ts.isJSDoc(node)) return;
    const parts = node.getChildren(source);
    for (const part of parts) visit(part);
    if (parts.length > 0 || node.getWidth(source) === 0) return;
    const { line: last } = source.getLineAndCharacterOfPosition(node.getEnd());
    let { line } = source.getLineAndCharacterOfPosition(node.getStart(source));
    for (; line <= last; line++) if (written[line]) lines.add(line);
  };
  visit(source);
  return lines.size;
}

/**
 * The files of the program: its sources, what builds it and what starts it.
 * @returns {string[]}
 */
function sources() {
  const files = ['bin', 'schema', 'src'].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map(
      (file) => `${folder}/${file.split(sep).join('/')}`,
    ),
  );
  const isOurs = (/** @type {string} */ file) =>
    /\.[jt]s$/.test(file) && !file.includes('/generated/');
  return files.filter(isOurs).sort();
}

/** Folder by folder, then the sum. @returns {string} */
function table() {
  /** @type {Map<string, { files: number, lines: number }>} */
  const folders = new Map();
  const all = { files: 0, lines: 0 };
  for (const file of sources()) {
    const lines = codeLines(readFileSync(join(ROOT, file), 'utf8'));
    const folder = folders.get(dirname(file)) ?? { files: 0, lines: 0 };
    folders.set(dirname(file), folder);
    for (const each of [folder, all]) {
      each.files += 1;
      each.lines += lines;
    }
  }
  const row = (/** @type {string} */ name, { files, lines } = all) =>
    `${name.padEnd(26)} ${String(files).padStart(5)} ${String(lines).padStart(7)}\n`;
  const rows = [...folders].map(([name, folder]) => row(name, folder));
  return `${'folder'.padEnd(26)} files   lines\n${rows.join('')}${row('all')}`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.stdout.write(table());
