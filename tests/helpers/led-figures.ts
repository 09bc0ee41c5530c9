/** Reads a page back: each figure that leads on, and what stands where it leads to. */

/** A figure of a page, and the target of its link. */
export interface LedFigure {
  readonly id: string;
  readonly shown: string;
  /** The text of what it leads to; undefined where nothing on the page has that id. */
  readonly target: string | undefined;
  /** What is added up there, by records, columns or rows; undefined where it is said in words. */
  readonly sum: number | undefined;
}

const LINK = /<a href="#(r-\d+(?:-\d+)?-[A-Za-z]\w*)"[^>]*>([^<]*)<\/a>/g;

/** Every figure in a cell of the page that leads on. */
export function ledFigures(page: string): LedFigure[] {
  const [tables = ''] = page.split('class="records"');
  return [...tables.matchAll(LINK)].map(([, id = '', shown = '']) => {
    const found = new RegExp(`<(li|td) id="${id}">`).exec(page);
    if (!found) return { id, shown, target: undefined, sum: undefined };
    const from = found.index + found[0].length;
    const content = page.slice(from, page.indexOf(`</${found[1] ?? ''}>`, from));
    const sum = found[1] === 'td' ? listSum(page, found.index) : partsSum(content);
    return { id, shown, target: textOf(content), sum };
  });
}

/** Text without tags. */
function textOf(markup: string): string {
  return markup.replace(/<[^>]+>/g, '');
}

/** A figure as a page shows it, in hundredths so that it adds up. */
export function numberOf(shown: string): number {
  return Math.round(Number(shown.replaceAll(',', '')) * 1e6);
}

/** The records of the list that a cell is in, added up in its column. */
function listSum(page: string, at: number): number {
  const table = page.slice(page.lastIndexOf('<table', at), page.indexOf('</table>', at));
  const here = page.slice(page.lastIndexOf('<tr>', at), at).match(/<t[dh][ >]/g) ?? [];
  const column = here.length;
  const rows = table.slice(table.lastIndexOf('<tbody>')).match(/<tr>.*<\/tr>/g) ?? [];
  const cells = rows.map((row) => row.match(/<td[^>]*>.*?<\/td>/g)?.[column] ?? '');
  return cells.reduce((sum, cell) => sum + numberOf(textOf(cell)), 0);
}

const PART =
  /( less | plus |^)<a [^>]*>([^<]*)<\/a>(?: \([^<]*?\))?(?: (-?[\d,]+(?:\.\d+)?))?(?= |$)/g;

/** What stands after the equals sign, each part with its figure; undefined where that is in words. */
function partsSum(content: string): number | undefined {
  const parts = content.slice(content.indexOf(' = ') + 3);
  if (!content.includes(' = ') || !parts.startsWith('<a ')) return undefined;
  return [...parts.matchAll(PART)].reduce((sum, [, sign, name = '', after]) => {
    const figure = numberOf(after ?? name.split(' ').at(-1) ?? '');
    return sign === ' less ' ? sum - figure : sum + figure;
  }, 0);
}
