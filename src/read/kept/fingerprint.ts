/** A fingerprint of a studio as it was read. */
import { digestOf } from '../../digest.ts';
import type { Finding } from '../../problem.ts';

/** What was read of a studio. */
interface ReadStudio {
  readonly files: readonly { readonly file: string; readonly content?: string | undefined }[];
  readonly findings: readonly Finding[];
  readonly strays?: readonly unknown[];
  readonly sheet?: unknown;
  readonly filedSheets?: readonly unknown[];
}

/** The same for the same files with the same texts, the same tax sheets and the same files besides. */
export function fingerprintOf({ files, ...others }: ReadStudio): string {
  const read = files.flatMap(({ file, content }) => [file, content]);
  const { findings, strays, sheet, filedSheets } = others;
  return digestOf(JSON.stringify([read, findings, strays, sheet, filedSheets]));
}
