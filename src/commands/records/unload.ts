/** `saggar unload FIRING`: what came out of a firing that is still in the kiln. */
import { listed } from '../../check/finding.ts';
import { readAmendment, type Amendment } from '../../entry/amendment.ts';
import type { EntryGround } from '../../entry/defaults.ts';
import { inWord, typedProblems } from '../../entry/faults.ts';
import { lexiconOf, type FoundRecord } from '../../entry/lexicon.ts';
import {
  linesInKiln,
  readUnloading,
  type LineInKiln,
  type ReadOutcomes,
} from '../../entry/unload.ts';
import { dayMeant } from '../../number/date.ts';
import { mapping, valueAt } from '../../read/raw.ts';
import { printed } from '../../render/printable.ts';
import { amendWith } from './amend.ts';
import type { AskedOf, CommandOf, OptionsOf } from '../catalogue.ts';
import { complainOf, type Agreed, type Scene } from './change.ts';
import { firingToUnload } from './find-record.ts';
import { inStudio, whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { say } from './told.ts';
import { EXIT, isRefusal, mayAsk, type Refusal } from '../world.ts';

type UnloadOptions = OptionsOf<'unload'>;

/** Options beside `--line`, and the fields of the firing that they fill. */
const READINGS = [
  { option: 'coneSeen', field: 'cone-seen' },
  { option: 'peak', field: 'peak' },
  { option: 'hours', field: 'hours' },
  { option: 'energy', field: 'energy' },
  { option: 'meterBefore', field: 'meter.before' },
  { option: 'meterAfter', field: 'meter.after' },
  { option: 'fuelUsed', field: 'fuel-used' },
  { option: 'tended', field: 'tended' },
] as const satisfies readonly { readonly option: keyof UnloadOptions; readonly field: string }[];

/** Fills in the outcome of a firing's load lines, and what was read off at the end. */
export const unload: CommandOf<'unload'> = (asked, world) => {
  const { input, line = [] } = asked.options;
  // Somebody sits there, and no line says what came out.
  return mayAsk(world, { input }) && line.length === 0
    ? inStudio({ asked, world }, askWhatCameOut)
    : whileLocked({ asked, world }, unloadAsked);
};

async function askWhatCameOut(scene: Scene<UnloadOptions>): Promise<number> {
  const { asked, world, opened } = scene;
  const firing = firingToUnload(asked, opened);
  if (isRefusal(firing)) return refuse(world, firing);
  if (linesInKiln(firing).length === 0) return whileLocked({ asked, world }, unloadAsked);
  const { askAndUnload } = await import('./ask-for.ts');
  const readings = READINGS.filter(({ option }) => asked.options[option] === undefined);
  type Said = Partial<UnloadOptions>;
  const withSaid = (said: Said): AskedOf<'unload'> => ({
    ...asked,
    argument: firing.id,
    options: { ...asked.options, ...said },
  });
  return askAndUnload(scene, {
    firing,
    readings,
    changes: (said) => {
      const read = readOutcome({ ...scene, asked: withSaid(said) }, firing);
      return isRefusal(read) ? [] : read.amendments;
    },
    unload: (said, inner, agreed) =>
      inStudio({ asked: withSaid(said), world: inner }, (again) => unloadAsked(again, agreed)),
  });
}

/** Unloads a firing by the options alone. */
async function unloadAsked(scene: Scene<UnloadOptions>, agreed?: Agreed): Promise<number> {
  const { asked, world, opened } = scene;
  const firing = firingToUnload(asked, opened);
  if (isRefusal(firing)) return refuse(world, firing);
  const read = readOutcome(scene, firing);
  if (isRefusal(read)) return refuse(world, read);
  const { amendments, lines, faults } = read;
  complainOf(
    world,
    typedProblems(faults, (fault) => inWord('--line', fault)),
  );
  if (faults.length > 0) return EXIT.errors;
  const what = lines.length > 0 ? 'Unloaded' : 'Recorded the readings of';
  const done = `${what} ${firing.id}`;
  const status = await amendWith(scene, firing, { amendments, done, agreed });
  const out = new Set(lines.map(({ path }) => path[1]));
  const left = linesInKiln(firing).filter(({ index }) => !out.has(index));
  if (status === EXIT.fine && left.length > 0 && asked.options.dryRun !== true)
    say(scene, printed`Still in the kiln: ${listed(left.map(lineInWords))}.\n`);
  return status;
}

/** All that the options change in a firing. */
interface ReadFiring extends ReadOutcomes {
  /** What came out of the load's lines. */
  readonly lines: readonly Amendment[];
}

function readOutcome(scene: Scene<UnloadOptions>, firing: FoundRecord): ReadFiring | Refusal {
  const { asked, opened } = scene;
  const lexicon = lexiconOf(opened.reading.files);
  const readings = askedReadings(asked.options, firing, { lexicon, day: opened.asOf });
  if (isRefusal(readings)) return readings;
  const { line: sentences = [] } = asked.options;
  if (sentences.length + readings.length === 0) return nothingSaid(firing);
  const { amendments: lines, faults } = readUnloading(firing, sentences, lexicon);
  return {
    amendments: [...unloadedOn(scene, firing, lines), ...readings, ...lines],
    lines,
    faults,
  };
}

/** What comes out on a later day than the firing's counts from then; the first such day is kept. */
function unloadedOn(
  { asked, opened }: Scene<UnloadOptions>,
  { raw }: FoundRecord,
  outcomes: readonly Amendment[],
): readonly Amendment[] {
  const { date: given } = asked.options;
  const value = given === undefined ? opened.asOf : (dayMeant(given, opened.asOf) ?? given);
  const fired = valueAt(raw, ['date']);
  const isKnown = valueAt(raw, ['unloaded']) !== undefined;
  if (outcomes.length === 0 || (isKnown && given === undefined)) return [];
  const isLater = typeof fired === 'string' && value > fired;
  return isLater || isKnown ? [{ path: ['unloaded'], value }] : [];
}

function lineInWords({ fields }: LineInKiln): string {
  const { lot, class: taught, outside, in: went } = fields;
  return [went, lot ?? taught ?? outside].filter((each) => typeof each === 'string').join(' ');
}

function nothingSaid(firing: FoundRecord): Refusal {
  const lines = linesInKiln(firing).map(lineInWords);
  if (lines.length === 0)
    return {
      refused: `${firing.id} is out of the kiln already; saggar amend changes what is written`,
    };
  return {
    refused: `say what came out with --line, as in --line "22 first 1 lost"; in the kiln are ${listed(lines)}`,
  };
}

function askedReadings(
  options: UnloadOptions,
  firing: FoundRecord,
  ground: EntryGround,
): readonly Amendment[] | Refusal {
  const amendments: Amendment[] = [];
  for (const { option, field } of READINGS) {
    const text = options[option];
    if (text === undefined) continue;
    const read = readAmendment(`${field}=${text}`, 'firings', ground);
    if (isRefusal(read)) return read;
    const [fault] = read.faults;
    if (fault) return { refused: `--${field}: ${fault.message}; ${fault.hint}` };
    amendments.push(read);
  }
  return valueAt(firing.raw, ['meter']) === undefined ? withMeter(amendments) : amendments;
}

/** Where there is no meter yet its readings come as one, so that a missing first one is filled in. */
function withMeter(amendments: readonly Amendment[]): readonly Amendment[] {
  const meter = amendments.filter(({ path }) => path[0] === 'meter');
  const others = amendments.filter(({ path }) => path[0] !== 'meter');
  const readings = mapping(meter.map(({ path, value = '' }) => [String(path[1]), value]));
  return meter.length === 0 ? others : [...others, { path: ['meter'], value: readings }];
}
