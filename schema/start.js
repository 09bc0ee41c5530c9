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
const native = createRequire(filename);

function compiled(name) {
  if (process.version !== '${process.version}' || process.arch !== '${process.arch}') return undefined;
  try {
    return readFileSync(new URL(\`\${name}.compiled\`, import.meta.url));
  } catch {
    return undefined;
  }
}

/** A file of the program as a function of what a CommonJS module is given. */
export function scriptOf(name, cachedData) {
  const file = fileURLToPath(new URL(\`\${name}.cjs\`, import.meta.url));
  return new Script(readFileSync(file, 'latin1'), { filename: file, cachedData });
}

/** Runs the program; the other files are loaded when something of them is wanted. */
export function run(load) {
  const files = {};
  const require = (name) => {
    const [file, part] = name.split(/:(.*)/);
    if (file !== 'rest' && file !== 'add') return native(name);
    files[file] ??= exportsOf(file);
    return files[file][part]();
  };
  const exportsOf = (name) => {
    const module = { exports: {} };
    load(name).runInThisContext()(module.exports, require, module, filename, dirname(filename));
    return module.exports;
  };
  exportsOf('cli');
}

if (!process.env.SAGGAR_COMPILING) run((name) => scriptOf(name, compiled(name)));
`;

/** Writes dist/start.js and the compiled form of the bundle, made after runs of the usual commands. */
export function writeStart() {
  for (const name of ['cli', 'add', 'rest']) rmSync(new URL(`${name}.compiled`, FOLDER), { force: true });
  writeFileSync(new URL('start.js', FOLDER), START);
  writeFileSync(new URL('start.d.ts', FOLDER), 'export {};\n');
  execFileSync(process.execPath, [fileURLToPath(new URL('compile.js', import.meta.url))], {
    env: { ...process.env, SAGGAR_COMPILING: '1' },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
