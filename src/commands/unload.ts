/** `saggar unload FIRING`: what came out of a firing that is still in the kiln. */
import { listed } from '../check/finding.ts';
import { readAmendment, type Amendment } from '../entry/amendment.ts';
import { inWord, typedProblems } from '../entry/faults.ts';
import { lexiconOf, type Lexicon, type Named } from '../entry/lexicon.ts';
import { linesInKiln, readUnloading, type LineInKiln } from '../entry/unload.ts';
import { mapping, valueAt } from '../read/raw.ts';
import { printed } from '../render/printable.ts';
import { amendWith } from './amend.ts';
import { complainOf, type Scene } from './change.ts';
import { firingToUnload } from './firing-in-kiln.ts';
import { whileLocked } from './locked.ts';
import { openFiles } from './open.ts';
import { refuse } from './show.ts';
import {
  EXIT,
  isRefusal,
  textOption,
  textsOption,
  type Asked,
  type Command,
  type Refusal,
  type World,
} from './world.ts';

/** The options beside `--line`, by name in camelCase, and the fields of the firing that they fill. */
const READINGS: Readonly<Record<string, string>> = {
  coneSeen: 'cone-seen',
  peak: 'peak',
  hours: 'hours',
  energy: 'energy',
  meterBefore: 'meter.before',
  meterAfter: 'meter.after',
  fuelUsed: 'fuel-used',
  tended: 'tended',
};

/** Fills in the outcome of a firing's load lines, and what was read off at the end. */
export const unload: Command = async (asked, world) => {
  const toAsk = mayAsk(asked, world) ? await findFiring(asked, world) : undefined;
  if (toAsk && isRefusal(toAsk)) return refuse(world, toAsk);
  if (toAsk && linesInKiln(toAsk.firing).length > 0) return ask(toAsk.scene, toAsk.firing);
  return whileLocked(asked, world, { run: (inner) => unloadAsked(asked, inner) });
};

/** Somebody sits there, and no line says what came out. */
function mayAsk(asked: Asked, world: World): boolean {
  if (!world.openScreen || asked.options['input'] === false) return false;
  return textsOption(asked, 'line').length === 0;
}

async function findFiring(
  asked: Asked,
  world: World,
): Promise<{ readonly scene: Scene; readonly firing: Named } | Refusal> {
  const opened = await openFiles(asked, world);
  if (isRefusal(opened)) return opened;
  const firing = firingToUnload(asked, opened);
  return isRefusal(firing) ? firing : { scene: { asked, world, opened }, firing };
}

async function unloadAsked(
  asked: Asked,
  world: World,
  agreed?: () => Promise<boolean>,
): Promise<number> {
  const found = await findFiring(asked, world);
  if (isRefusal(found)) return refuse(world, found);
  return unloadFiring(found.scene, found.firing, agreed);
}

async function ask(scene: Scene, firing: Named): Promise<number> {
  const { askAndUnload } = await import('./ask-unload.ts');
  const given = Object.keys(READINGS).filter((option) => scene.asked.options[option] !== undefined);
  const readings = Object.entries(READINGS).map(([option, field]) => ({ option, field }));
  const open = readings.filter(({ option }) => !given.includes(option));
  return askAndUnload(scene, { firing, readings: open, unload: unloadAsked });
}

/** Unloads a firing by the options alone. */
async function unloadFiring(
  scene: Scene,
  firing: Named,
  agreed?: () => Promise<boolean>,
): Promise<number> {
  const { asked, world, opened } = scene;
  const lexicon = lexiconOf(opened.reading.files);
  const readings = askedReadings(asked, firing, lexicon);
  if (isRefusal(readings)) return refuse(world, readings);
  const sentences = textsOption(asked, 'line');
  if (sentences.length + readings.length === 0) return refuse(world, nothingSaid(firing));
  const { amendments, faults } = readUnloading(firing, sentences, lexicon);
  complainOf(
    world,
    typedProblems(faults, (fault) => inWord('--line', fault)),
  );
  if (faults.length > 0) return EXIT.errors;
  const what = amendments.length > 0 ? 'Unloaded' : 'Put down what was read off for';
  const all = [...unloadedOn(scene, firing, amendments), ...readings, ...amendments];
  const changes = { amendments: all, done: `${what} ${firing.id}` };
  const status = await amendWith(scene, firing, { ...changes, ...(agreed ? { agreed } : {}) });
  const left = leftAfter(firing, amendments);
  if (status === EXIT.fine && left.length > 0 && asked.options['dryRun'] !== true)
    world.write(printed`Still in the kiln: ${listed(left.map(inWords))}.\n`);
  return status;
}

/** What comes out on a later day than the firing's counts from then; the first such day is kept. */
function unloadedOn(
  { asked, opened }: Scene,
  { raw }: Named,
  outcomes: readonly Amendment[],
): readonly Amendment[] {
  const given = textOption(asked, 'date');
  const value = given ?? opened.asOf;
  const fired = valueAt(raw, ['date']);
  const isKnown = valueAt(raw, ['unloaded']) !== undefined;
  if (outcomes.length === 0 || (isKnown && given === undefined)) return [];
  const isLater = typeof fired === 'string' && value > fired;
  return isLater || isKnown ? [{ path: ['unloaded'], value }] : [];
}

function leftAfter(firing: Named, amendments: readonly Amendment[]): readonly LineInKiln[] {
  const out = new Set(amendments.map(({ path }) => path[1]));
  return linesInKiln(firing).filter(({ index }) => !out.has(index));
}

function inWords({ fields }: LineInKiln): string {
  const { lot, class: taught, outside, in: went } = fields;
  return [went, lot ?? taught ?? outside].filter((each) => typeof each === 'string').join(' ');
}

function nothingSaid(firing: Named): Refusal {
  const lines = linesInKiln(firing).map(inWords);
  if (lines.length === 0)
    return {
      refused: `${firing.id} is out of the kiln already; saggar amend changes what is written`,
    };
  return {
    refused: `say what came out with --line, as in --line "22 first 1 lost"; in the kiln are ${listed(lines)}`,
  };
}

function askedReadings(
  asked: Asked,
  firing: Named,
  lexicon: Lexicon,
): readonly Amendment[] | Refusal {
  const amendments: Amendment[] = [];
  for (const [option, field] of Object.entries(READINGS)) {
    const text = textOption(asked, option);
    if (text === undefined) continue;
    const read = readAmendment(`${field}=${text}`, 'firings', lexicon);
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
