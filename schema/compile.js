// Runs the usual commands on the example studio and keeps what V8 compiled for them.
import { writeFileSync } from 'node:fs';
import process from 'node:process';
import { setImmediate } from 'node:timers';
import { URL, fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';

const STUDIO = fileURLToPath(new URL('../example-studio', import.meta.url));
const START = new URL('../dist/start.cjs', import.meta.url).href;
const WHERE = ['--studio', STUDIO, '--as-of', '2026-06-30'];

/** @typedef {import('node:vm').Script} Script */
/** @typedef {'cli' | 'rest'} Name */
/** @type {unknown} */
const start = await import(START);
const { scriptOf, run } =
  /** @type {{ scriptOf: (name: Name) => Script, run: (load: (name: Name) => Script) => void }} */ (
    start
  );
const scripts = { cli: scriptOf('cli'), rest: scriptOf('rest') };
const SALE = ['add', 'sales', '--channel', 'door', '--line', '1 mug at 40', '--dry-run'];
const commands = [['materials'], ['check'], ['income'], ['firings'], ['firings'], SALE, SALE];

// Each command ends when nothing is left to do; only then does the next one start.
process.on('beforeExit', () => {
  const command = commands.shift();
  if (command) {
    process.argv = [process.execPath, 'saggar', ...command, ...WHERE];
    run((name) => scripts[name]);
    setImmediate(() => undefined); // Something to do, or the event would not come again.
    return;
  }
  // The commands sweep their heap sooner than usual. V8 takes compiled code only of the flags that it was
  // started with, so that is turned back.
  setFlagsFromString('--heap-growing-percent=0');
  for (const [name, script] of Object.entries(scripts))
    writeFileSync(new URL(`../dist/${name}.compiled`, import.meta.url), script.createCachedData());
  process.exit(0);
});
