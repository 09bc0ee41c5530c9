// Bundles the program into one file, so that it starts without looking for its parts.
import console from 'node:console';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { URL, fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { writeStart } from './start.js';

const ENTRY = new URL('../src/cli.ts', import.meta.url);
const FOLDER = new URL('../dist/', import.meta.url);

/** Stands in the code until the code itself is known. */
const STAMP_HOLDER = '<the stamp of this program>';

/** Writes dist/cli.cjs; only says so when there is no program yet. Fails where a part is missing. */
export async function bundle() {
  if (!existsSync(ENTRY)) {
    console.log('src/cli.ts is not there yet: no program was bundled');
    return;
  }
  const code = await bundledCode();
  mkdirSync(FOLDER, { recursive: true });
  writeFileSync(
    new URL('cli.cjs', FOLDER),
    asFunction(code.replaceAll(STAMP_HOLDER, stampOf(code))),
  );
  writeStart();
  // Else the type check would read the whole bundle through bin/.
  writeFileSync(new URL('cli.d.cts', FOLDER), 'export {};\n');
}

/** @returns {Promise<string>} */
async function bundledCode() {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(ENTRY)],
    write: false,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'cjs',
    minify: true,
    logLevel: 'warning',
    define: {
      SAGGAR_VERSION: JSON.stringify(version()),
      SAGGAR_STAMP: JSON.stringify(STAMP_HOLDER),
      // The program's own files are found from where the bundle is.
      'import.meta.dirname': '__dirname',
    },
  });
  return outputFiles[0]?.text ?? '';
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
  const about = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
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
