// Bundles the program into two files, so that it starts without looking for its parts: one that takes the
// words of the command line, and one with all the rest. What goes into the second is what is imported
// only where it is needed.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { licences } from './licences.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const ENTRY = 'src/cli.ts';
const FOLDER = new URL('../../dist/', import.meta.url);

/** Stands in the code until the code itself is known. */
const STAMP_HOLDER = '<the stamp of this program>';

/**
 * Writes dist/cli.cjs and dist/rest.cjs, which bin/saggar.js starts, and what goes with them. Fails where
 * a part is missing.
 */
export async function bundle() {
  /** @type {Set<string>} */
  const later = new Set();
  const cli = await bundledCode({ entryPoints: [resolve(ROOT, ENTRY)], plugins: [leaving(later)] });
  const rest = await bundledCode({ stdin: { contents: listing(later), resolveDir: ROOT } });
  const stamp = stampOf(cli.text + rest.text);
  rmSync(new URL('compiled', FOLDER), { recursive: true, force: true });
  mkdirSync(FOLDER, { recursive: true });
  for (const [name, { text }] of Object.entries({ cli, rest })) {
    const stamped = text.replaceAll(STAMP_HOLDER, stamp);
    write(`${name}.cjs`, `/*${stamp}*/${asFunction(stamped)}`);
  }
  write('LICENCES', licences(ROOT, [...cli.files, ...rest.files]));
  write('saggar.1', execFileSync(process.execPath, [resolve(ROOT, 'bin/saggar.js'), 'man']));
}

/** @type {(name: string, content: string | Buffer) => void} */
function write(name, content) {
  writeFileSync(new URL(name, FOLDER), content);
}

/**
 * The code, and the files that it is of.
 * @param {import('esbuild').BuildOptions} what
 * @returns {Promise<{ text: string, files: string[] }>}
 */
export async function bundledCode(what) {
  const { outputFiles, metafile } = await build({
    ...what,
    write: false,
    metafile: true,
    absWorkingDir: ROOT,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: what.format ?? 'cjs',
    // What is left out is then asked for by require, which the start gives.
    supported: { 'dynamic-import': false },
    minify: true,
    logLevel: 'warning',
    define: {
      SAGGAR_VERSION: JSON.stringify(version()),
      SAGGAR_STAMP: JSON.stringify(STAMP_HOLDER),
      // The program's own files are found from where the bundle is.
      'import.meta.dirname': '__dirname',
    },
  });
  return { text: outputFiles[0]?.text ?? '', files: Object.keys(metafile.inputs) };
}

/**
 * Leaves out what is loaded only when it is needed, and notes it.
 * @param {Set<string>} later
 * @returns {import('esbuild').Plugin}
 */
function leaving(later) {
  return {
    name: 'leaving',
    setup: (builder) => {
      builder.onResolve({ filter: /^\./ }, ({ kind, path, resolveDir }) => {
        if (kind !== 'dynamic-import') return undefined;
        const name = relative(ROOT, resolve(resolveDir, path));
        later.add(name);
        // Behind the name of the file that has it.
        return { path: `rest:${name}`, external: true };
      });
    },
  };
}

/** @type {(files: ReadonlySet<string>) => string} */
function listing(files) {
  const parts = [...files].sort().map((file) => `'${file}': () => require('./${file}'),`);
  return `module.exports = {\n${parts.join('\n')}\n};\n`;
}

/**
 * The code as one function of what a CommonJS module is given, in plain ASCII: so it is read as it
 * stands. The bundler leaves other characters in regular expressions only, where escapes mean the same.
 * @param {string} code
 * @returns {string}
 */
function asFunction(code) {
  const ascii = code.replace(
    /[\u0080-\uffff]/g,
    (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
  return `(function (exports, require, module, __filename, __dirname) { ${ascii}\n})`;
}

/** @returns {string} */
function version() {
  /** @type {unknown} */
  const about = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return /** @type {{ version: string }} */ (about).version;
}

/**
 * What tells this program and its schemas from any other: what an older one kept is not trusted.
 * @param {string} code
 * @returns {string}
 */
function stampOf(code) {
  return `${version()}-${createHash('sha256').update(code).digest('hex').slice(0, 16)}`;
}
