/** Answers that are laid out otherwise since version 0.1.0: both sides in one shape, and new words for old ones. */
import type { Answer, Row } from './old-answers.ts';

/** What is called otherwise now. */
const WORDS: readonly (readonly [old: string, now: string])[] = [
  ['put-down', 'recorded'],
  [
    'Making and refires stand apart and are not in the totals.',
    'Making and refires are listed separately, not in the totals.',
  ],
  [
    'What is sold, back or missing is of the delivery made first, unless a lot or glaze is named.',
    'What is sold, returned or missing is of the delivery made first, unless a lot or glaze is named.',
  ],
];

/** An answer of old with the words of now. */
export function inNewWords(answer: Answer): Answer {
  const now = new Map(WORDS);
  const rows = answer.rows.map((row) => {
    const section = now.get(String(row['section']));
    return section === undefined ? row : { ...row, section };
  });
  return { ...answer, rows, notes: answer.notes.map((note) => now.get(note) ?? note) };
}

const STAGES = ['making', 'bisque', 'glaze', 'once', 'lustre', 'raku', 'test'].flatMap((stage) => [
  stage,
  `${stage} refire`,
]);
const COUNTS = ['in', 'first', 'second', 'lost', 'lossRate'] as const;
const TOLD: readonly string[] = ['group', 'firing', ...COUNTS, 'yield'];

/**
 * Losses by product with a row for each stage, as of old, from a row for each product with its stages; of
 * each only what both have. Another answer is given as it is.
 */
export function byStage(answer: Answer): Answer {
  if (answer.report !== 'losses' || !answer.columns.some(({ key }) => key === 'yield'))
    return answer;
  const isWide = answer.columns.some(({ key }) => key === 'makingIn' || key === 'bisqueIn');
  const rows = isWide ? answer.rows.flatMap(stagesOf) : answer.rows;
  const columns = isWide
    ? TOLD.map((key) => ({ key, type: key === 'group' || key === 'firing' ? 'text' : typeOf(key) }))
    : answer.columns.filter(({ key }) => TOLD.includes(key));
  const totals = answer.totals && { ...answer.totals, firing: '' };
  return { ...answer, rows, columns, notes: [], ...(totals && { totals }) };
}

function typeOf(key: string): string {
  return key === 'lossRate' || key === 'yield' ? 'fraction' : 'count';
}

function stagesOf(row: Row): Row[] {
  return STAGES.flatMap((stage) => {
    const cells = COUNTS.map((key) => [key, row[keyOf(stage, key)] ?? null] as const);
    const isThere = cells.some(([, cell]) => cell !== null);
    const { group = null, yield: comesThrough = null } = row;
    return isThere
      ? [{ group, firing: stage, ...Object.fromEntries(cells), yield: comesThrough }]
      : [];
  });
}

/** `glaze refire` and `in` are `glazeRefireIn`. */
function keyOf(stage: string, key: string): string {
  const words = [...stage.split(' '), key];
  return words
    .map((word, at) => (at === 0 ? word : word.charAt(0).toUpperCase() + word.slice(1)))
    .join('');
}

/** Rows of a tax summary that there were none of. */
const NEW_ROWS = /^(?:self-employment|ask|lasting)\./;

/**
 * A tax summary of old and one of now, whose lines of the form are under a heading for each part of it, in
 * place of one for the form, with the form's own titles; what is new of it is left out.
 */
export function byLine([old, now]: readonly [Answer, Answer]): [Answer, Answer] {
  const itemOf = ({ item }: Row): string => String(item);
  const isLine = (row: Row): boolean => itemOf(row).startsWith('line.');
  const known = new Set(old.rows.map(itemOf));
  const lined = (answer: Answer): Answer => ({
    ...answer,
    rows: answer.rows.map((row) => (isLine(row) ? { ...row, part: 'lines', name: '' } : row)),
  });
  if (old.report !== 'quarter') return [old, now];
  const kept = now.rows.filter(
    (row) => !NEW_ROWS.test(itemOf(row)) && (!isLine(row) || known.has(itemOf(row))),
  );
  return [lined(old), lined({ ...now, rows: kept })];
}
