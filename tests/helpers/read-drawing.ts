/** Reads a drawing as somebody with a ruler would: where marks of the scale stand, and so what else stands for. */

/** An element of a drawing: its name, its attributes and its text. */
export interface DrawnElement {
  readonly name: string;
  readonly kind: string;
  readonly is: (attribute: string) => number;
  readonly text: string;
}

/** From a position to the figure that lies there. */
export type Ruler = (position: number) => number;

/** Elements in the order in which they are drawn. */
export function elementsOf(drawing: string): DrawnElement[] {
  const all = drawing.matchAll(/<(rect|line|circle|text|svg)\b([^>]*)>([^<]*)/g);
  return [...all].map(([, name = '', attributes = '', text = '']) => {
    const values = new Map(
      [...attributes.matchAll(/([\w-]+)="([^"]*)"/g)].map(([, key = '', value = '']) => [
        key,
        value,
      ]),
    );
    const is = (attribute: string): number => parseFloat(values.get(attribute) ?? 'NaN');
    return { name, kind: values.get('class') ?? '', is, text };
  });
}

/** Each row of a drawing of rows below each other. */
export function rowsOf(drawing: string): DrawnElement[][] {
  return drawing.split('<g class="row"').slice(1).map(elementsOf);
}

export function ofKind(elements: readonly DrawnElement[], kind: string): DrawnElement[] {
  return elements.filter((each) => each.kind.split(' ').includes(kind));
}

/** The ruler along `x` or `y`, by the lines of the scale whose marks have a text. */
export function rulerAlong(along: 'x' | 'y', elements: readonly DrawnElement[]): Ruler {
  const [across, down] = [`${along}1`, `${along}2`];
  const marked = elements.flatMap((each, at) => {
    const next = elements[at + 1];
    const isLine = each.name === 'line' && ['grid', 'zero'].includes(each.kind);
    if (!isLine || each.is(across) !== each.is(down) || next?.kind !== 'mark') return [];
    return [{ at: each.is(across), figure: figureOf(next.text) }];
  });
  const [first, last] = [marked[0]!, marked.at(-1)!];
  const each = (last.figure - first.figure) / (last.at - first.at);
  return (position) => first.figure + (position - first.at) * each;
}

function figureOf(text: string): number {
  const figure = Number(text.replace(/[,%]/g, ''));
  return text.endsWith('%') ? figure / 100 : figure;
}
