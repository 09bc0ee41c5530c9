/** The program's own catalogue of commands and its kinds of record, out of the sources. */
import { Buffer } from 'node:buffer';
import { URL, fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** @import { CommandSpec } from '../../src/commands/spec.ts' */
/** @import { Kind } from '../../src/book.ts' */

/** @type {import('esbuild').Plugin} */
const WITHOUT_WHAT_THEY_LOAD = {
  name: 'without-what-they-load',
  setup(building) {
    building.onResolve({ filter: /.*/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { external: true } : undefined,
    );
  },
};

/**
 * What a module of the sources exports.
 * @param {string} path
 * @returns {Promise<unknown>}
 */
async function moduleAt(path) {
  const { outputFiles } = await build({
    entryPoints: [fileURLToPath(new URL(path, import.meta.url))],
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    plugins: [WITHOUT_WHAT_THEY_LOAD],
  });
  const code = Buffer.from(outputFiles[0]?.contents ?? []).toString('base64');
  return import(`data:text/javascript;base64,${code}`);
}

const catalogue = /** @type {{ COMMANDS: CommandSpec[], COMPLETE_WORDS: CommandSpec }} */ (
  await moduleAt('../../src/commands/catalogue.ts')
);
const book = /** @type {{ DEFINITION_KINDS: readonly Kind[], EVENT_KINDS: readonly Kind[] }} */ (
  await moduleAt('../../src/book.ts')
);

/** Every command, those for shells too. */
export const COMMANDS = [...catalogue.COMMANDS, catalogue.COMPLETE_WORDS];
export const { DEFINITION_KINDS, EVENT_KINDS } = book;
