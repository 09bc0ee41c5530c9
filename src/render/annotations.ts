/** Problems as commands to a runner of workflows, which shows each at its line in a change. */
import type { Place, Problem } from '../problem.ts';
import { visible } from './escape.ts';
import { printedLayout, type Printable } from './printable.ts';
import { countsOf } from './problems.ts';

/**
 * One line for each problem, `::error file=…,line=…,col=…,endColumn=…,title=…::…`, with the hint and
 * the related places in its message; then a line that counts them.
 * @param prefix the studio's folder from the repository's root, with a slash at its end or empty
 */
export function annotations(problems: readonly Problem[], prefix: string): Printable {
  const lines = problems.map((problem) => command(problem, prefix));
  return printedLayout([...lines, countsOf(problems)].map((line) => `${line}\n`).join(''));
}

function command(problem: Problem, prefix: string): string {
  const { severity, place, rule, message, hint, related } = problem;
  const { file, line, column, width } = place;
  const properties = {
    file: prefix + file,
    line: String(line),
    col: String(column),
    endColumn: String(column + width),
    title: rule,
  };
  const words = Object.entries(properties).map(([name, value]) => `${name}=${property(value)}`);
  const says = [
    message,
    ...(hint === '' ? [] : [`hint: ${hint}`]),
    ...related.map((other) => `see ${placeText(other.place, prefix)} ${other.message}`),
  ];
  return `::${severity} ${words.join(',')}::${data(says.map(visible).join('\n'))}`;
}

function placeText({ file, line, column }: Place, prefix: string): string {
  return `${prefix}${file}:${line}:${column}`;
}

/** What a command's own signs are written as, so that no text is taken for one. */
function data(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(visible(text)).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
