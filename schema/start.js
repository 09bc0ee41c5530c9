// Writes what starts the program: it loads the bundle as V8 has compiled it before, where that fits.
import { execFileSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';

const FOLDER = new URL('../dist/', import.meta.url);

/**
 * V8 looks at the source's length only, so the compiled form is kept for one build and one version of
 * Node: with any other the bundle is compiled as usual. A CommonJS module, for Node loads it sooner.
 */
const START = `const { readFileSync } = require('node:fs');
const { join } = require('node:path');
const { Script } = require('node:vm');

const native = require;
const filename = join(__dirname, 'cli.cjs');

function compiled(name) {
  if (process.version !== '${process.version}' || process.arch !== '${process.arch}') return undefined;
  try {
    return readFileSync(join(__dirname, name + '.compiled'));
  } catch {
    return undefined;
  }
}

/** A file of the program as a function of what a CommonJS module is given. */
function scriptOf(name, cachedData) {
  const file = join(__dirname, name + '.cjs');
  return new Script(readFileSync(file, 'latin1'), { filename: file, cachedData });
}

/** Node's module for running other programs, loaded when one is run: few commands ever do. */
const programs = new Proxy({}, { get: (_, name) => native('node:child_process')[name] });

/** Runs the program; the other file is loaded when something of it is wanted. */
function run(load) {
  const files = {};
  const require = (name) => {
    if (name === 'node:child_process') return programs;
    const [file, part] = name.split(/:(.*)/);
    if (file !== 'rest') return native(name);
    files[file] ??= exportsOf(file);
    return files[file][part]();
  };
  const exportsOf = (name) => {
    const module = { exports: {} };
    load(name).runInThisContext()(module.exports, require, module, filename, __dirname);
    return module.exports;
  };
  exportsOf('cli');
}

module.exports = { scriptOf, run };
if (!process.env.SAGGAR_COMPILING) run((name) => scriptOf(name, compiled(name)));
`;

/** Writes dist/start.cjs and the compiled form of the bundle, made after runs of the usual commands. */
export function writeStart() {
  for (const name of ['cli', 'rest']) rmSync(new URL(`${name}.compiled`, FOLDER), { force: true });
  writeFileSync(new URL('start.cjs', FOLDER), START);
  writeFileSync(new URL('start.d.cts', FOLDER), 'export {};\n');
  execFileSync(process.execPath, [fileURLToPath(new URL('compile.js', import.meta.url))], {
    env: { ...process.env, SAGGAR_COMPILING: '1' },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
