/** How a mistake of the list is written: one place of one file of the sound studio. */

/**
 * What it is, the file, what stands there when all is well, and what stands there now: the signs « and »
 * are not in the file; they are round what `check` is to mark.
 */
export type MistakeRow = readonly [what: string, file: string, sound: string, wrong: string];
