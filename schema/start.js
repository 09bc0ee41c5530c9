// Writes what starts the program: it loads the bundle as V8 has compiled it before, where that fits.
import { execFileSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import process from 'node:process';
import { URL, fileURLToPath } from 'node:url';

const FOLDER = new URL('../dist/', import.meta.url);

/**
 * V8 looks at the source's length only, so the compiled form is kept for one build and one version of
 * Node: with any other the bundle is compiled as usual.
 */
const START = `import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';

const filename = fileURLToPath(new URL('cli.cjs', import.meta.url));

function compiled() {
  if (process.version !== '${process.version}' || process.arch !== '${process.arch}') return undefined;
  try {
    return readFileSync(new URL('cli.compiled', import.meta.url));
  } catch {
    return undefined;
  }
}

/** The bundle as a function of what a CommonJS module is given. */
export function bundle(cachedData) {
  return new Script(readFileSync(filename, 'latin1'), { filename, cachedData });
}

export function run(script) {
  const module = { exports: {} };
  const require = createRequire(filename);
  script.runInThisContext()(module.exports, require, module, filename, dirname(filename));
}

if (!process.env.SAGGAR_COMPILING) run(bundle(compiled()));
`;

/** Writes dist/start.js and the compiled form of the bundle, made after runs of the usual commands. */
export function writeStart() {
  rmSync(new URL('cli.compiled', FOLDER), { force: true });
  writeFileSync(new URL('start.js', FOLDER), START);
  writeFileSync(new URL('start.d.ts', FOLDER), 'export {};\n');
  execFileSync(process.execPath, [fileURLToPath(new URL('compile.js', import.meta.url))], {
    env: { ...process.env, SAGGAR_COMPILING: '1' },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
