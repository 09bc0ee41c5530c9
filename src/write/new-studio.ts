/** The files of a new studio: settings, samples of every kind, and what editors and git need. */
import { ADDRESS_FILE, kindOf } from '../read/kinds.ts';
import { editorSchemas } from './editor-schemas.ts';
import { scalarText } from './emit.ts';
import type { FileToWrite } from './store.ts';
import { modelineFor, SCHEMA_FOLDER } from './target.ts';

/** What is the studio's own in its first files. */
export interface FirstSettings {
  readonly name: string;
  /** Three letters of ISO 4217. */
  readonly currency: string;
  readonly weightUnit: string;
}

/** Texts that came with the program, by path. */
export interface Originals {
  /** The files of a new studio, with places such as `<name>` and `<450 g|1 lb>`. */
  readonly studio: Readonly<Record<string, string>>;
  readonly schemas: Readonly<Record<string, string>>;
}

/** Units of weight of those who buy their clay by the pound. */
const POUND_UNITS: ReadonlySet<string> = new Set(['oz', 'lb', 'ton']);

// Unions of lines would fuse records on a merge, so no merge driver is named.
const GIT_ATTRIBUTES = '*.yaml text eol=lf\n';
const GIT_IGNORE =
  '# What earlier versions of the program kept here, its lock while it writes, and what it writes for editors.\n.saggar/\n.saggar-lock\n.schema/\n# Pictures are large, and git keeps every version of them.\nphotos/\n' +
  `# Addresses of buyers, for the papers that you print: nobody else needs them.\n/${ADDRESS_FILE}\n`;

/** Whether the samples are in pounds and Fahrenheit, else in kilograms and Celsius. */
function isInPounds(weightUnit: string): boolean {
  return POUND_UNITS.has(weightUnit);
}

/** Every file of a new studio, as changes to a folder that has none of them. Same settings, same bytes. */
export function newStudio(settings: FirstSettings, { studio, schemas }: Originals): FileToWrite[] {
  const files = Object.entries(studio).map(([file, text]): [string, string] => [
    file,
    `${modelineFor(kindOf(file) ?? 'studio', file)}\n${filledIn(text, settings)}`,
  ]);
  const help = Object.entries(editorSchemas(schemas)).map(([name, text]): [string, string] => [
    `${SCHEMA_FOLDER}/${name}`,
    text,
  ]);
  const forGit: [string, string][] = [
    ['.gitattributes', GIT_ATTRIBUTES],
    ['.gitignore', GIT_IGNORE],
  ];
  return [...files, ...help, ...forGit].map(([file, after]) => ({
    file,
    before: undefined,
    after,
  }));
}

const PLACE = /<([^<>|\n]+)(?:\|([^<>|\n]+))?>/g;

/** Fills the places: of a pair, the first is for kilograms and the second for pounds. */
function filledIn(text: string, settings: FirstSettings): string {
  const inPounds = isInPounds(settings.weightUnit);
  const words: Readonly<Record<string, string>> = {
    name: scalarText(settings.name, { number: false, inFlow: false }),
    currency: settings.currency,
    'weight-unit': settings.weightUnit,
    'volume-unit': inPounds ? 'qt' : 'L',
    'temperature-unit': inPounds ? '°F' : '°C',
  };
  return text.replace(PLACE, (_, first: string, second?: string) =>
    second === undefined ? (words[first] ?? first) : inPounds ? second : first,
  );
}
