/** What was found part by part, as data that can be kept: that of thousands of files in one list of texts. */
import type { Finding } from '../problem.ts';
import type { FoundParts, PartOfFile } from './going-on.ts';

/** The parts as data. */
export interface KeptParts extends Omit<FoundParts, 'files'> {
  /** Of each file its path, content, whether it is whole, and what was asked for. */
  readonly texts: readonly string[];
  readonly findings: ReadonlyMap<string, readonly Finding[]>;
}

const TEXTS = 4;
const WHOLE = 'whole';

/** Parts to be kept. */
export function keptParts({ files, ...others }: FoundParts): KeptParts {
  const texts: string[] = [];
  const findings = new Map<string, readonly Finding[]>();
  for (const [file, part] of files) {
    texts.push(file, part.content, part.isWhole ? WHOLE : '', part.asked);
    if (part.findings.length > 0) findings.set(file, part.findings);
  }
  return { ...others, texts, findings };
}

/** The parts as they were. */
export function partsKept({ texts, findings, ...others }: KeptParts): FoundParts {
  const files = new Map<string, PartOfFile>();
  for (let at = 0; at < texts.length; at += TEXTS) {
    const [file = '', content = '', whole, asked = ''] = texts.slice(at, at + TEXTS);
    const isWhole = whole === WHOLE;
    files.set(file, { content, isWhole, asked, findings: findings.get(file) ?? [] });
  }
  return { ...others, files };
}
