/** Addresses of buyers, from a file that is read for papers alone: it is in no book, memory, review or export. */
import { nearest } from '../nearest.ts';
import type { Finding } from '../problem.ts';
import { isThere, wholeText } from './disk.ts';
import { repositoryAround } from './git/around.ts';
import { ADDRESS_FILE } from './kinds.ts';
import { isList, isMap, type Path, type Raw } from './raw.ts';
import { readSheet, sheetsOnDisk } from './tax-sheet.ts';

/** The lines of a buyer's address, by the buyer's name as sales have it. */
export type AddressOf = (buyer: string) => readonly string[];

const NOBODY: AddressOf = () => [];

/** Reads them; without the file no buyer has one. Gives what is wrong with it where anything is. */
export async function addressesIn(studioDir: string): Promise<AddressOf | readonly Finding[]> {
  if (!isThere(`${studioDir}/${ADDRESS_FILE}`)) return NOBODY;
  const read = await readSheet(ADDRESS_FILE, sheetsOnDisk(studioDir));
  if ('unread' in read) return read.unread.findings;
  const buyers = Object.entries(read.content.root);
  const faults = buyers.flatMap(([id, buyer]) => faultsOfBuyer(id, buyer));
  if (faults.length > 0) return faults;
  const known = new Map(buyers.flatMap(([, buyer]) => (isMap(buyer) ? [addressOf(buyer)] : [])));
  return (buyer) => known.get(plainName(buyer)) ?? [];
}

/** Capitals and spaces make no difference. */
function plainName(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}

function addressOf({ name, address }: Readonly<Record<string, Raw>>): [string, string[]] {
  const lines = isList(address) ? address : [address ?? ''];
  const texts = lines.flatMap((line) => (typeof line === 'string' ? line.split('\n') : []));
  return [typeof name === 'string' ? plainName(name) : '', texts.filter((text) => text !== '')];
}

const FIELDS_OF_BUYER: readonly string[] = ['name', 'address', 'note'];

function faultsOfBuyer(id: string, buyer: Raw): Finding[] {
  if (!isMap(buyer))
    return [faultAt([id], 'a buyer has a name and an address', 'add name: and address: below it')];
  const unknown = Object.keys(buyer).filter((key) => !FIELDS_OF_BUYER.includes(key));
  const odd = unknown.map((key) => {
    const near = nearest(key, FIELDS_OF_BUYER);
    const hint =
      near === undefined ? 'the fields are name, address and note' : `did you mean "${near}"?`;
    return { ...faultAt([id, key], `a buyer has no field "${key}"`, hint), at: keyAt(id, key) };
  });
  const isNamed = typeof buyer['name'] === 'string';
  const hasLines = isList(buyer['address'])
    ? buyer['address'].every((line) => typeof line === 'string')
    : typeof buyer['address'] === 'string';
  // A name that is mistyped is why the field is missing.
  if (odd.length > 0) return odd;
  return [
    ...(isNamed ? [] : [faultAt([id], 'its name is missing', 'add name: as sales have the buyer')]),
    ...(hasLines
      ? []
      : [
          faultAt(
            [id],
            'its address is missing',
            'write address: with its lines, such as [4 Mill Lane, Pebblestoke]',
          ),
        ]),
  ];
}

function keyAt(...path: string[]): Finding['at'] {
  return { file: ADDRESS_FILE, path, on: 'key' };
}

function faultAt(path: Path, message: string, hint: string): Finding {
  return { rule: 'schema', severity: 'error', at: { file: ADDRESS_FILE, path }, message, hint };
}

/** Whether git would take the addresses in: they are in a repository, and nothing there leaves them out. */
export function isOpenToGit(studioDir: string): boolean {
  if (!isThere(`${studioDir}/${ADDRESS_FILE}`) || !repositoryAround(studioDir)) return false;
  const lines = (wholeText(studioDir, '.gitignore') ?? '').split('\n').map((line) => line.trim());
  return !lines.includes(ADDRESS_FILE) && !lines.includes(`/${ADDRESS_FILE}`);
}
