/** Addresses of the studio's files, as pages lead to them. */
import type { LineAddress } from '../../report/page.ts';

/** In the studio's folder, where a page lies that is in no export; a first name with a colon would be read as a scheme. */
export const besidePage: LineAddress = (file, line) =>
  `./${file.split('/').map(encodeName).join('/')}${line === undefined ? '' : `#L${line}`}`;

/** Lone surrogates can't stand in an address. */
function encodeName(name: string): string {
  return encodeURIComponent(name.replace(/\p{Cs}/gu, '\ufffd')).replaceAll("'", '%27');
}
