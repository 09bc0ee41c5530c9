/** What differs between the same reports of two books, told line by line. */

/** The report's name and the first line that differs, for each report that is not the same in both. */
export function differing(
  one: Readonly<Record<string, string>>,
  other: Readonly<Record<string, string>>,
): string[] {
  const names = [...new Set([...Object.keys(one), ...Object.keys(other)])];
  return names
    .filter((name) => one[name] !== other[name])
    .map((name) => `${name}: ${firstDifference(one[name] ?? '', other[name] ?? '')}`);
}

function firstDifference(one: string, other: string): string {
  const [lines, others] = [one.split('\n'), other.split('\n')];
  const at = lines.findIndex((line, index) => line !== others[index]);
  return `${lines[at]?.trim() ?? 'nothing'} | ${others[at]?.trim() ?? 'nothing'}`;
}
