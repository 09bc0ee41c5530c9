/** Tells whether a tax sheet is a file of the studio's. */
const ENDING = /\.(?:ya?ml|json)$/i;
const UPWARDS = /^[/\\]|^[A-Za-z]:|(?:^|[/\\])\.\.(?:[/\\]|$)/;

/** Whether a name is that of a file, and not the id of a sheet that comes with the program. */
export function isSheetFile(name: string): boolean {
  return ENDING.test(name) || name.includes('/');
}

/** Whether a path doesn't stay below the folder that it is named from. */
export function leadsUpwards(path: string): boolean {
  return UPWARDS.test(path);
}
