/** The plain data that the YAML printer of the tests takes. */

/**
 * A scalar: a string or number is printed as it stands (quoted only where YAML's grammar demands
 * it); `{ text }` is a text field, quoted as well where YAML would read a number, truth or null.
 */
export type Leaf = string | number | { readonly text: string };

export type Tree = Leaf | readonly Tree[] | TreeMap;

/** Keys with undefined are left out. */
export interface TreeMap {
  readonly [key: string]: Tree | undefined;
}
