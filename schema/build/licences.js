// Gathers the licences of the packages that the bundle has code of.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

/**
 * @param {string} root where the packages are installed
 * @param {Iterable<string>} files that went into the bundle, from there
 * @returns {string}
 */
export function licences(root, files) {
  const names = new Set([...files].flatMap((file) => packageOf(file) ?? []));
  const texts = [...names].sort().map((name) => {
    return `${name}\n\n${licenceOf(join(root, 'node_modules', name))}`;
  });
  return `The program has code of these packages in it.\n\n${texts.join('\n\n')}\n`;
}

/**
 * @param {string} file
 * @returns {string | undefined}
 */
function packageOf(file) {
  const [first, scope = '', name = ''] = file.split('/');
  if (first !== 'node_modules') return undefined;
  return scope.startsWith('@') ? `${scope}/${name}` : scope;
}

/**
 * The licence of a package; one that has none can't be bundled.
 * @param {string} folder
 * @returns {string}
 */
function licenceOf(folder) {
  const file = readdirSync(folder).find((name) => /^licen[cs]e/i.test(name));
  if (file === undefined) throw new Error(`${folder} has no licence`);
  return readFileSync(join(folder, file), 'utf8').trim();
}
