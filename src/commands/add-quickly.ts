/** Adds an ordinary sale without a look at the whole book, where what is known of the studio vouches for it. */
import { typedAgain } from '../entry/echo.ts';
import { mayBePlain } from '../entry/plain-sale.ts';
import { NAMED_BY_SALES, planQuickSale, type QuickPlan } from '../entry/quick-sale.ts';
import type { RawMap } from '../read/raw.ts';
import { readStudio } from '../read/read.ts';
import type { TypedOfKind } from './add-typed.ts';
import { wordsFor } from './add-words.ts';
import { carryOut, type Site } from './change.ts';
import { keptEnd, keptFindings } from './kept-book.ts';
import type { KnownStudio } from './known.ts';

/** Where a change is made in a studio that was found and not read. */
interface Scene extends Site {
  readonly opened: KnownStudio;
}

/** The exit status; undefined where nothing was done or said, since it takes a look at the whole book. */
export async function addQuickly(scene: Scene, typed: TypedOfKind): Promise<number | undefined> {
  const fields = onlySale(typed);
  const plan = fields && (await planOf(scene, fields));
  if (!plan) return undefined;
  const records = [{ id: undefined, fields: plan.fields }];
  return carryOut(scene, {
    plan,
    ...wordsFor(plan.added),
    typed: typedAgain('sales', records, scene.opened.asOf),
    ...(typed.agreed ? { agreed: typed.agreed } : {}),
  });
}

/** The one sale that was typed as options or answers, without an id of its own. */
function onlySale({ kind, records, problems, text }: TypedOfKind): RawMap | undefined {
  const [only, ...others] = records;
  if (kind !== 'sales' || !only || others.length > 0 || only.id !== undefined) return undefined;
  return text === undefined && problems.length === 0 && mayBePlain(only.fields)
    ? only.fields
    : undefined;
}

async function planOf({ world, opened }: Scene, fields: RawMap): Promise<QuickPlan | undefined> {
  const { folder, asOf, kept, store } = opened;
  const known = keptEnd(kept, asOf);
  const findings = known && keptFindings(kept, asOf);
  if (!findings) return undefined;
  const kinds = NAMED_BY_SALES;
  const reading = await readStudio(folder, { store, kinds });
  if ('refused' in reading || reading.findings.length > 0) return undefined;
  const salesFiles = kept.files.flatMap(({ file, kind }) => (kind === 'sales' ? [file] : []));
  const outline = {
    folder,
    asOf,
    definitions: reading.files,
    salesFiles,
    findings,
    ...known,
    random: world.random,
  };
  return planQuickSale(outline, fields);
}
