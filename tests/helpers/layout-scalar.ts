/** Scalars and keys in every style that YAML has and that holds the text. */
import { endLine, type Pen, type Spot, type Style } from './layout-pen.ts';

/** A key, sometimes in quotes that it doesn't need. */
export function keyText(pen: Pen, key: string, inFlow: boolean): string {
  const quoted = pen.random.chance(inFlow ? 0.2 : 0.1);
  return quoted ? pen.random.pick([`'${key}'`, `"${key}"`]) : key;
}

export interface ScalarSpot extends Spot {
  readonly inFlow: boolean;
}

/** Writes a scalar behind its mark; in a block with the line end. Gives the offset of its end. */
export function writeScalar(pen: Pen, text: string, spot: ScalarSpot): number {
  const style = pen.random.pick(stylesFor(text, spot));
  if (style !== 'empty' && !isFlowItem(spot)) pen.out += pen.random.pick([' ', ' ', ' ', '  ']);
  const start = pen.out.length;
  pen.out += styled(pen, text, { style, column: spot.column + pen.step });
  const isBlock = style === 'literal' || style === 'folded';
  if (isBlock) {
    pen.belowBlock = true;
    pen.keeps = text.endsWith('\n\n');
  }
  const end = pen.out.length;
  pen.scalars.push({ path: spot.path, text, style, start, end });
  if (!spot.inFlow && !isBlock) endLine(pen);
  return end;
}

function isFlowItem({ path, inFlow }: ScalarSpot): boolean {
  return inFlow && typeof path.at(-1) === 'number';
}

function stylesFor(text: string, spot: ScalarSpot): Style[] {
  const plain = /^[\p{L}\p{N}](?:[\p{L}\p{N} .:%½\\'"-]*[\p{L}\p{N}.%½\\'"])?$/u.test(text);
  const printable = !/[\n\t]/.test(text);
  const inBlock = !spot.inFlow;
  return [
    ...(text === '' && !isFlowItem(spot) ? (['empty'] as const) : []),
    ...(plain && !/: |:$/.test(text) ? (['plain', 'plain', 'plain'] as const) : []),
    ...(plain && inBlock && text.includes(' ') && !text.includes(':')
      ? (['folded-plain'] as const)
      : []),
    ...(printable ? (['single'] as const) : []),
    'double',
    ...(inBlock && /^[^\s][^\t]*$/.test(text) && !text.endsWith('\n\n\n')
      ? (['literal', 'literal'] as const)
      : []),
    ...(inBlock && printable && /^\S.*\S$/.test(text) ? (['folded'] as const) : []),
  ];
}

function styled(
  pen: Pen,
  text: string,
  { style, column }: { readonly style: Style; readonly column: number },
): string {
  const margin = ' '.repeat(column);
  switch (style) {
    case 'empty':
      return '';
    case 'plain':
      return text;
    case 'folded-plain':
      return text.replace(' ', `${pen.lineBreak}${margin}`);
    case 'single':
      return `'${text.replaceAll("'", "''")}'`;
    case 'double':
      return JSON.stringify(text);
    case 'literal':
    case 'folded':
      return blockScalar(pen, text, { mark: style === 'literal' ? '|' : '>', margin });
  }
}

function blockScalar(
  pen: Pen,
  text: string,
  { mark, margin }: { readonly mark: string; readonly margin: string },
): string {
  const chomp = text.endsWith('\n\n') ? '+' : text.endsWith('\n') ? '' : '-';
  const indicator = pen.random.chance(0.1) ? String(pen.step) : '';
  const lines = (text.endsWith('\n') ? text.slice(0, -1) : text).split('\n');
  const body = lines.map((line) => (line === '' ? '' : margin + line) + pen.lineBreak);
  const remark = pen.random.chance(pen.chatty * 0.3) ? ' # remark on the block' : '';
  return `${mark}${indicator}${chomp}${remark}${pen.lineBreak}${body.join('')}`;
}
