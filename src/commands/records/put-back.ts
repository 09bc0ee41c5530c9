/** Puts back what a change took: `amend ID --as-it-was` and `add KIND --back-to FILE:LINE`. */
import type { Kind } from '../../book.ts';
import { listed } from '../../check/finding.ts';
import { differingLines } from '../../entry/undoing/change-lines.ts';
import { STANDARD_INPUT } from '../../entry/given.ts';
import type { Amendable } from '../../entry/amendment.ts';
import type { OpenedStudio } from '../../entry/plan.ts';
import { planAsItWas, planPutBack, type BackTo } from '../../entry/undoing/put-back.ts';
import { asItWas, undoAdded } from '../../entry/undoing/undo.ts';
import { wholeText } from '../../read/disk.ts';
import { kindOf } from '../../read/kinds.ts';
import { locate } from '../../read/place.ts';
import { decodeText } from '../../read/text.ts';
import type { AskedOf } from '../catalogue.ts';
import { carryOut, complainOf, type Scene } from './change.ts';
import { askedAmendable } from './find-record.ts';
import { whileLocked } from './locked.ts';
import { refuse } from '../reports/show.ts';
import { EXIT, isRefusal, type Refusal, type World } from '../world.ts';
import { notWritten } from './writer.ts';

/** Gives a record the lines that it had, as they are on standard input. */
export async function putBackRecord(asked: AskedOf<'amend'>, world: World): Promise<number> {
  if (asked.words.length > 1)
    return refuse(world, { refused: '--as-it-was takes the whole record; leave out the changes' });
  return withText(world, (text) =>
    whileLocked({ asked, world }, async (scene) => {
      const record = askedAmendable(asked, scene.opened);
      if (isRefusal(record)) return refuse(world, record);
      return putRecord(scene, record, text);
    }),
  );
}

async function putRecord(scene: Scene, record: Amendable, text: string): Promise<number> {
  const { opened, world } = scene;
  const { id, file } = record;
  const plan = await planAsItWas(opened, record, text);
  if ('refused' in plan) return notWritten(world, plan.refused);
  const root = plan.edited[0]?.root;
  const lines = differingLines(record.raw, id === '' ? root : root?.[id]);
  return carryOut(scene, {
    plan,
    shown: [lines.map((line) => `${line}\n`).join('')],
    done: `Put ${id === '' ? file : `${id} in ${file}`} back as it was`,
    undo: () => [asItWas(record, textNow(opened, file))],
  });
}

function textNow({ folder }: OpenedStudio, file: string): string {
  return wholeText(folder, file) ?? '';
}

/** Puts records back where they were, as they are on standard input. */
export async function putBackLines(
  kind: Kind,
  asked: AskedOf<'add'>,
  world: World,
): Promise<number> {
  const place = placeToPut(kind, asked.options.backTo ?? '');
  if (isRefusal(place)) return refuse(world, place);
  return withText(world, (text) =>
    whileLocked({ asked, world }, async (scene) => {
      const { opened } = scene;
      const plan = await planPutBack(opened, place, text);
      if ('refused' in plan) return notWritten(world, plan.refused);
      return carryOut(scene, {
        plan,
        shown: [text.endsWith('\n') ? text : `${text}\n`],
        done: `Put ${listed(plan.ids)} back in ${place.file}`,
        undo: () => undoAdded({ opened, plan }, plan.ids),
      });
    }),
  );
}

function placeToPut(kind: Kind, text: string): BackTo | Refusal {
  const [, file = text, line] = /^(.*?):(\d{1,7})$/.exec(text) ?? [];
  const isPlain = !file.split('/').some((step) => step === '..' || step === '.' || step === '');
  if (kindOf(file) !== kind || !isPlain)
    return {
      refused: `--back-to: "${text}" is not a file for ${kind}; write one such as ${kind}.yaml:12`,
    };
  if (Number(line ?? 1) < 1) return { refused: '--back-to: lines count from 1' };
  return { kind, file, line: line === undefined ? undefined : Number(line) };
}

async function withText(world: World, work: (text: string) => Promise<number>): Promise<number> {
  if (world.inputIsTerminal)
    return refuse(world, { refused: 'give the record as it was on standard input, with < FILE' });
  const text = decodeText(STANDARD_INPUT, Buffer.from(await world.readInput()));
  if (typeof text === 'string') return work(text);
  complainOf(world, await locate('', [text]));
  return EXIT.errors;
}
