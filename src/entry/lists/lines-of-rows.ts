/** The lines of a record, each from a row of the list. */
import { FIELDS } from '../../../schema/generated/fields.js';
import { decimal, type Decimal } from '../../number/decimal.ts';
import { mapping, newMapping, type Growing, type RawMap } from '../../read/raw.ts';
import { formOf } from '../forms.ts';
import { itemSpec } from '../fields.ts';
import { readSentence } from '../sentence.ts';
import { numberOfCell } from './cell.ts';
import { cellOf, valueOfCell, type RowsRead } from './cell-value.ts';
import { listField } from './list-field.ts';
import { unclearRow } from './row-words.ts';
import { priceOfLine, type SignedLine } from './signs.ts';
import type { ListRow } from './table.ts';

/** A line for each row that says something of one. */
export function linesOfRows(making: RowsRead, rows: readonly ListRow[]): readonly SignedLine[] {
  return rows.flatMap((row) => lineOfRow(making, row));
}

/** Its figures are kept with their signs; all else is as a record has it. */
const FIGURES_OF_LINE = ['count', 'price', 'amount'] as const;

function lineOfRow(making: RowsRead, row: ListRow): SignedLine[] {
  const { map } = making.ground;
  const said = newMapping<string>();
  const figures: Partial<Record<(typeof FIGURES_OF_LINE)[number], Decimal>> = {};
  for (const name of map.columns.keys()) {
    const field = listField(map.kind, name);
    if (!field || (field.within !== 'line' && name !== 'amount')) continue;
    const [cell] = cellOf(map, row, field);
    const value = cell && valueOfCell(making, cell);
    if (value === undefined) continue;
    const figure = FIGURES_OF_LINE.find((each) => each === name);
    if (figure) figures[figure] = decimal(value);
    else said[field.name] = value.replace(/^-/, '');
  }
  if (Object.keys(said).length === 0 && Object.keys(figures).length === 0) return [];
  const line = { fields: wordsOfLine(making, row, said), ...figures };
  lookAtFigures(making, row, line);
  return [line];
}

/** What the map fixes, then what the row says; a product's words may say its glaze and grade too. */
function wordsOfLine(making: RowsRead, row: ListRow, said: Growing<string>): RawMap {
  const { map } = making.ground;
  const fixed = [...map.fixed].flatMap(([name, text]) => {
    const field = listField(map.kind, name);
    return field?.within === 'line' ? [[field.name, text] as const] : [];
  });
  const { product, ...others } = said;
  const meant = product === undefined ? [] : Object.entries(productWords(making, row, product));
  return mapping([...fixed, ...meant, ...Object.entries(others)]);
}

function productWords({ ground, findings }: RowsRead, row: ListRow, words: string): RawMap {
  const form = formOf(ground.map.kind, 'lines');
  const { lines } = FIELDS[ground.map.kind].fields;
  const spec = lines && itemSpec(lines);
  if (!form || !spec || !words.includes(' ')) return mapping([['product', words]]);
  const read = readSentence(`1 ${words}`, { form, spec, lexicon: ground.lexicon });
  for (const { message, hint } of read.faults) findings.push(unclearRow(row, { message, hint }));
  return mapping(Object.entries(read.fields).filter(([name]) => name !== 'count'));
}

function lookAtFigures(making: RowsRead, row: ListRow, line: SignedLine): void {
  const { count, price, amount } = line;
  const each = priceOfLine(line);
  const say = (message: string): void => {
    making.findings.push(
      unclearRow(row, { message, hint: 'correct the row, or skip it in the map' }),
    );
  };
  if (count && (count.isZero() || !count.isInteger())) say(`the count is ${count.toFixed()}`);
  else if (
    price &&
    amount &&
    !price
      .times(count ?? decimal(1))
      .abs()
      .eq(amount.abs())
  )
    say(`${price.abs().toFixed()} each does not come to ${amount.abs().toFixed()}`);
  else if (each && each.decimalPlaces() > making.ground.digits)
    say(
      `${amount?.abs().toFixed() ?? ''} can't be parted into ${count?.abs().toFixed() ?? ''} equal prices`,
    );
}

/** What the map calls other income: a line for each amount, once a record unless each row has its own. */
export function otherLines(making: RowsRead, rows: readonly ListRow[]): readonly SignedLine[] {
  const { map } = making.ground;
  return [...map.other].flatMap(([what, column]) => {
    const [row] = rows.filter(({ cells }) => (cells.get(column) ?? '') !== '');
    const text = row?.cells.get(column) ?? '';
    const price = numberOfCell(text, map.decimals);
    if (!row || price?.isZero()) return [];
    if (!price) {
      const message = `"${text}" is not a number with a decimal ${map.decimals}`;
      making.findings.push(
        unclearRow(row, { message, hint: 'correct the row, or skip it in the map', value: text }),
      );
      return [];
    }
    return [{ fields: mapping([['for', what]]), price }];
  });
}
