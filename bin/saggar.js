#!/usr/bin/env node
// Starts the program from its two files, as V8 compiled them in an earlier run where there was one. A
// CommonJS module, which Node loads sooner.
const { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } = require('node:fs');
const path = require('node:path');
const { setFlagsFromString } = require('node:v8');
const { Script } = require('node:vm');

/** @typedef {Record<string, () => unknown>} Parts what a file gives */
/** @typedef {{ script: InstanceType<typeof Script>, parts: Parts }} File */

const FOLDER = path.join(__dirname, '..', 'dist');
const COMMAND = process.argv[2] ?? '';
const COULD_NOT_RUN = 2;

/**
 * The files that were loaded.
 * @type {Map<string, File>}
 */
const files = new Map();

/**
 * Where compiled code is.
 * @type {string | undefined}
 */
let kept;

/** Node's module for running other programs, loaded when one is run: few commands ever do. */
const programs = new Proxy(
  {},
  {
    /** @type {(_: object, name: string | symbol) => unknown} */
    get: (_, name) => Reflect.get(/** @type {object} */ (require('node:child_process')), name),
  },
);

/**
 * What the program asks for; its second file is loaded when something of it is wanted.
 * @param {string} name
 * @returns {unknown}
 */
function load(name) {
  if (name === 'node:child_process') return programs;
  const [file = '', part = ''] = name.split(/:(.*)/);
  return file === 'rest' ? fileOf(file).parts[part]?.() : require(name);
}

/** @type {(name: string) => File} */
function fileOf(name) {
  const known = files.get(name);
  if (known) return known;
  const filename = path.join(FOLDER, `${name}.cjs`);
  const source = readFileSync(filename, 'latin1');
  kept ??= keptFor(source);
  const data = compiled(path.join(kept, name));
  const script = new Script(source, { filename, ...(data ? { cachedData: data } : {}) });
  if (name === 'rest' && isWorthKeeping(script.cachedDataRejected)) keepAtEnd();
  /** @type {{ exports: Parts }} */
  const made = { exports: {} };
  /** @type {unknown} */
  const run = script.runInThisContext();
  Reflect.apply(/** @type {() => void} */ (run), made, [
    made.exports,
    load,
    made,
    filename,
    FOLDER,
  ]);
  const file = { script, parts: made.exports };
  files.set(name, file);
  return file;
}

/**
 * Compiled code is for one build, whose stamp is in the comment at the head of its files, and one Node:
 * of the source V8 itself compares no more than the length.
 * @param {string} source
 * @returns {string}
 */
function keptFor(source) {
  const stamp = source.slice(2, source.indexOf('*', 2));
  return path.join(FOLDER, 'compiled', `${stamp}-${process.version}-${process.arch}`);
}

/** @type {(file: string) => Buffer | undefined} */
function compiled(file) {
  try {
    return readFileSync(file);
  } catch {
    return undefined;
  }
}

/**
 * The first runs of each command add to what is kept, for one alone may have asked for its help. With
 * other flags than usual V8 would compile for those alone.
 * @param {boolean | undefined} isRejected
 * @returns {boolean}
 */
function isWorthKeeping(isRejected) {
  const isUsual = process.execArgv.length === 0 && !process.env['NODE_OPTIONS'];
  return (
    isUsual &&
    /^[a-z]+(-[a-z]+)*$/.test(COMMAND) &&
    (isRejected === true || !existsSync(marks().at(-1) ?? ''))
  );
}

/** Each says that the code of a run of this command is among what is kept. */
function marks() {
  return ['1', '2', '3'].map((run) => path.join(kept ?? '', `with-${COMMAND}-${run}`));
}

function keepAtEnd() {
  // Else code that this run has no use for would be forgotten meanwhile.
  setFlagsFromString('--no-flush-bytecode');
  process.once('exit', (status) => {
    if (status >= COULD_NOT_RUN) return;
    try {
      keepCompiled();
    } catch {
      // The folder is somebody else's: each run compiles for itself.
    }
  });
}

function keepCompiled() {
  // V8 takes compiled code only of the flags that it was started with: what was set is turned back.
  for (const flag of ['--heap-growing-percent=0', '--flush-bytecode']) setFlagsFromString(flag);
  mkdirSync(kept ?? '', { recursive: true, mode: 0o755 });
  const mark = marks().find((each) => !existsSync(each));
  if (mark !== undefined) writeFileSync(mark, '');
  for (const [name, { script }] of files) {
    const file = path.join(kept ?? '', name);
    const own = `${file}-${process.pid}`;
    writeFileSync(own, script.createCachedData(), { mode: 0o644 });
    renameSync(own, file);
  }
}

fileOf('cli');
