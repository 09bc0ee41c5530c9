/** Settings by which common editors find the schema of each file, those made by hand among them. */
import { KINDS } from '../book.ts';
import { SCHEMA_FOLDER } from './target.ts';

/** What an editor is to be told. */
export interface EditorSettings {
  /** Path from the studio's root. */
  readonly file: string;
  readonly settings: object;
}

const SCHEMAS: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  ['studio', ...KINDS].map((kind) => [
    `${SCHEMA_FOLDER}/${kind}.json`,
    kind === 'studio' ? ['studio.yaml'] : [`${kind}.yaml`, `${kind}/**/*.yaml`],
  ]),
);

const FLAT = { 'yaml.schemas': SCHEMAS };
const SERVER = { 'yaml-language-server': { settings: { yaml: { schemas: SCHEMAS } } } };

/** For each editor, its file of settings in a folder and what goes into it. */
export const EDITOR_SETTINGS: readonly EditorSettings[] = [
  { file: '.vscode/settings.json', settings: FLAT },
  { file: '.vim/coc-settings.json', settings: FLAT },
  { file: '.zed/settings.json', settings: { lsp: SERVER } },
];

/** The settings as the text of a file. */
export function settingsText({ settings }: EditorSettings): string {
  return `${JSON.stringify(settings, null, 2)}\n`;
}

/** Whether a text has all of the settings, whatever else is in it. */
export function hasSettings(text: string, { settings }: EditorSettings): boolean {
  try {
    return isWithin(settings, JSON.parse(text));
  } catch {
    return false;
  }
}

function isWithin(part: unknown, whole: unknown): boolean {
  if (typeof part !== 'object' || part === null) return part === whole;
  if (typeof whole !== 'object' || whole === null) return false;
  return Object.entries(part).every(([key, of]) => isWithin(of, Reflect.get(whole, key)));
}
