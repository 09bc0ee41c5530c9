/** Fingerprints of a studio as it was read. */
import { digestOf } from '../../digest.ts';
import type { Finding } from '../../problem.ts';
import type { OwnSheet } from '../tax-sheet.ts';

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

/** As many signs tell two states of a book apart, and can be read aloud. */
const DIGEST_SIGNS = 12;

/** For people: the same for the same texts under the same paths, in whatever order they were read. */
export function filesDigest(files: ReadStudio['files'], sheets: readonly OwnSheet[]): string {
  const own = sheets.flatMap((sheet) =>
    'content' in sheet ? [[sheet.file, digestOf(sheet.content.text)]] : [],
  );
  const all = [...files.map(({ file, content }) => [file, content]), ...own];
  const texts = all.map((each) => JSON.stringify(each)).sort();
  return digestOf(texts.join('\n')).slice(0, DIGEST_SIGNS);
}
