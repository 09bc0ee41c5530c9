/** The studio's own words for its papers, from the file that its settings name. */
import type { Finding } from '../../problem.ts';
import { nearest } from '../../nearest.ts';
import { addressesIn } from '../../read/addresses.ts';
import { readSheet, sheetsOnDisk } from '../../read/tax-sheet.ts';
import { PHRASES, paperWording, type OwnPhrases } from '../../report/papers/phrases.ts';
import type { PaperScene } from '../../report/papers/letter.ts';
import type { OpenedBook } from '../studio/open.ts';
import { isRefusal, type Refusal } from '../world.ts';

/** What is wrong with the file of addresses. */
interface AddressFaults {
  readonly faults: readonly Finding[];
}

/** What papers of an opened studio are made from; refused where its phrases or addresses can't be read. */
export async function paperScene(
  opened: OpenedBook,
): Promise<PaperScene | Refusal | AddressFaults> {
  const { book, asOf, folder } = opened;
  const own = await ownPhrases(folder, book.studio.papers?.phrases);
  if (isRefusal(own)) return own;
  const addressOf = await addressesIn(folder);
  if (typeof addressOf !== 'function') return { faults: addressOf };
  return { book, asOf, wording: paperWording(book, own), addressOf };
}

async function ownPhrases(folder: string, file: string | undefined): Promise<OwnPhrases | Refusal> {
  if (file === undefined) return {};
  const read = await readSheet(file, sheetsOnDisk(folder));
  if ('unread' in read) return { refused: unreadWords(file, read.unread.findings) };
  for (const [key, words] of Object.entries(read.content.root)) {
    const fault = phraseFault(key, typeof words === 'string' ? words : undefined);
    if (fault !== undefined) return { refused: `${file}: ${fault}` };
  }
  return read.content.root;
}

function unreadWords(file: string, [finding]: readonly Finding[]): string {
  return `the phrases in ${file} can't be read: ${finding?.message ?? ''}`;
}

const LANGUAGE = /^[A-Za-z]{2,3}(?:-[A-Za-z0-9]{2,8})*$/;

function phraseFault(key: string, words: string | undefined): string | undefined {
  const known = Object.keys(PHRASES);
  if (!known.includes(key)) {
    const near = nearest(key, known);
    return `there is no phrase "${key}"; ${near === undefined ? `there are ${known.join(', ')}` : `did you mean ${near}?`}`;
  }
  if (words === undefined) return `${key} takes words on one line`;
  if (key === 'language' && !LANGUAGE.test(words))
    return `"${words}" is not a language: write a code such as de or pt-BR`;
  const isMark = key.endsWith('-mark');
  return isMark && words.length > 1 ? `${key} takes one sign, such as "."` : undefined;
}
