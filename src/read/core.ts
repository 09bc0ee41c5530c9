/** A file as a YAML 1.2 core reader sees it: what other readers and editors would make of it. */

/** One file of the studio, read with numbers, truths and nulls recognised. */
export interface CoreFile {
  /** The whole file as plain values. */
  readonly root: unknown;
  /**
   * Whether the scalar at a path (keys and list indexes from the root) stands there without quotes;
   * undefined where there is no scalar.
   */
  readonly plain: (path: readonly (string | number)[]) => boolean | undefined;
  /** The text of the scalar at a path as it stands in the file, without quotes; empty for none. */
  readonly text: (path: readonly (string | number)[]) => string;
}
