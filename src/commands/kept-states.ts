/** Of which states of a studio something is kept: as it is, as it was before the last changes, a branch, a commit. */

/** A few, for the memory is one of the studio as it is. */
const MOST_STATES = 4;

/** With one more: the first, or beside the first where it is a commit that is only looked at. */
export function withState<T extends { readonly content: string }>(
  known: readonly T[],
  state: T,
  isBeside: boolean,
): readonly T[] {
  const isFirst = !isBeside || known[0]?.content === state.content;
  const others = known.filter(({ content }) => content !== state.content);
  const at = isFirst ? 0 : 1;
  return [...others.slice(0, at), state, ...others.slice(at)].slice(0, MOST_STATES);
}
