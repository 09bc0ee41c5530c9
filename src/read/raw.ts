/** A file's content before it is typed: every scalar is the text that stands in the file. */
import type { Kind } from '../book.ts';
import type { Finding } from '../problem.ts';

export type Raw = string | readonly Raw[] | RawMap;

/** Inherits no keys, so that a key can be any word. */
export interface RawMap {
  readonly [key: string]: Raw;
}

/** One readable file of the studio. */
export interface RawFile {
  /** Path from the studio's root, with forward slashes. */
  readonly file: string;
  readonly kind: Kind | 'studio';
  /** Record id → record, in the file's order; for `studio.yaml` the settings themselves. */
  readonly root: RawMap;
  /**
   * True where an unquoted scalar under a key of the text fields would be read as something else
   * than text by a YAML 1.2 core reader, or a value is empty: only then need the slow check look.
   */
  readonly odd: boolean;
}

/** A file's text, without byte order mark. */
export interface FileText {
  /** Path from the studio's root, with forward slashes. */
  readonly file: string;
  readonly text: string;
}

/** What could be read of a file. */
export interface Parsed {
  /** The records in which nothing is wrong, in the file's order. */
  readonly root: RawMap;
  /** As in `RawFile`. */
  readonly odd: boolean;
  /** What is wrong: `yaml-error`, `duplicate-id` for two records of one id, `merge-conflict`. */
  readonly findings: readonly Finding[];
}
