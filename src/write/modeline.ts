/** The first line of a studio's file that tells an editor which schema its records go by. */
import type { Kind } from '../book.ts';

/** The folder of a studio that holds the schemas for the editor; readers skip it. */
export const SCHEMA_FOLDER = '.schema';

/**
 * The comment line, without a line end, by which editors with YAML support find the schema of a file:
 * the path is relative to the file, as they expect it.
 * @param file path from the studio's root, with forward slashes
 */
export function modelineFor(kind: Kind | 'studio', file: string): string {
  const upward = '../'.repeat(file.split('/').length - 1);
  return `# yaml-language-server: $schema=${upward}${SCHEMA_FOLDER}/${kind}.json`;
}
