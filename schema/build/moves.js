// Derives from the schemas what each field moves of all that the events come to.
import { NAMES, load, meant, recordOf } from './shapes.js';

/** @import { Moved, Moves } from './spec.ts' */
/** @import { Schema } from './shapes.js' */

/** @typedef {{ own: Schema, values: Schema }} Within */

/** @type {readonly Moves[]} */
const WORDS = ['nothing', 'date', 'all'];

/**
 * What every field of every kind moves: by its own `x-moves`, else as what it stands in, else all.
 * @returns {Record<string, Readonly<Record<string, Moved>>>}
 */
export function allMoves() {
  const values = load('values');
  return Object.fromEntries(
    NAMES.map((name) => {
      const own = load(name);
      return [name, movesOfFields(recordOf(own), { own, values }, said(own) ?? 'all')];
    }),
  );
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @param {Moves} around what the record or the list that has the fields moves
 * @returns {Readonly<Record<string, Moved>>}
 */
function movesOfFields({ properties = {} }, within, around) {
  return Object.fromEntries(
    Object.entries(properties).map(([key, field]) => [key, movedBy(field, within, around)]),
  );
}

/**
 * @param {Schema} schema
 * @param {Within} within
 * @param {Moves} around
 * @returns {Moved}
 */
function movedBy(schema, within, around) {
  const whole = meant(schema, within);
  const moves = said(whole) ?? around;
  const one = whole.items ? meant(whole.items, within) : whole;
  return one.properties ? movesOfFields(one, within, moves) : moves;
}

/**
 * The word of a schema; one that means nothing ends the build.
 * @param {Schema} schema
 * @returns {Moves | undefined}
 */
export function said({ 'x-moves': word }) {
  if (word === undefined) return undefined;
  const moves = WORDS.find((each) => each === word);
  if (moves === undefined) throw new Error(`x-moves is one of ${WORDS.join(', ')}, not ${word}`);
  return moves;
}
