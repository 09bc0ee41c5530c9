/** What is said of a record while it is typed is what the check of the whole studio would say. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { KINDS, type Kind } from '../../src/book.ts';
import { type OpenedStudio, freshFindings } from '../../src/entry/plan.ts';
import { draftId, lookAtDraft, type RecordDraft } from '../../src/entry/questions/draft.ts';
import type { RawFile, RawMap } from '../../src/read/raw.ts';
import { checkStudio } from '../helpers/check-studio.ts';
import { growStudio, studioPlan, type RandomStudio } from '../helpers/random-studio.ts';
import { openFolder } from '../helpers/small-studio.ts';
import { withStudio } from '../helpers/write-studio.ts';
import { holds } from '../helpers/law.ts';
import { cases } from '../helpers/tier.ts';

/** A record of the studio that is typed once more, or changed where it stands. */
interface Choice {
  readonly kind: Kind;
  readonly pick: number;
  readonly isNew: boolean;
  readonly today: boolean;
}

const choice: fc.Arbitrary<Choice> = fc.record({
  kind: fc.constantFrom(...KINDS),
  pick: fc.nat(1000),
  isNew: fc.boolean(),
  today: fc.boolean(),
});

function draftOf(
  { records, asOf }: RandomStudio,
  opened: OpenedStudio,
  choice: Choice,
): RecordDraft[] {
  const { kind, pick, isNew, today } = choice;
  const all = Object.entries(records[kind]);
  const [id, raw] = all[pick % Math.max(1, all.length)] ?? [];
  if (id === undefined || raw === undefined) return [];
  const isDated = raw['date'] !== undefined && today;
  const fields = { ...raw, ...(isDated ? { date: asOf } : {}), ...muchOf(raw, pick) };
  if (isNew) return [{ kind, id: draftId(kind), fields }];
  const file = opened.reading.files.find(({ root }) => root[id] !== undefined)?.file;
  return file === undefined ? [] : [{ kind, id, fields, file }];
}

/** More than there is of what has a single quantity, now and then. */
function muchOf({ quantity }: RawMap, pick: number): RawMap {
  const isOne = typeof quantity === 'string' && !quantity.includes(' x ');
  return isOne && pick % 2 === 0 ? { quantity: `900 x ${quantity}` } : {};
}

/** The same by a check of all files, of which one has the draft. */
function lookAtAll(
  { reading, findings, asOf }: OpenedStudio,
  draft: RecordDraft,
): readonly unknown[] {
  const { kind, id, fields, file } = draft;
  const old = reading.files.find((each) => each.file === file);
  const root = Object.assign(Object.create(null) as RawMap, old?.root, { [id]: fields });
  const changed: RawFile = { kind, root, odd: false, file: file ?? `new ${id.slice(5)}` };
  const files = [...reading.files.filter((each) => each !== old), changed];
  const after = checkStudio({ ...reading, files }, asOf);
  return freshFindings(findings, after.findings, new Set([id]));
}

function sorted(findings: readonly unknown[]): readonly string[] {
  return findings.map((finding) => JSON.stringify(finding)).sort();
}

it('whatever is typed, in whatever studio', async () => {
  const tally = { quiet: 0, said: 0 };
  const typed = fc.record({
    plan: studioPlan({ days: 50 }),
    choices: fc.array(choice, { minLength: 8, maxLength: 8 }),
  });
  const property = fc.asyncProperty(typed, async ({ plan, choices }) => {
    const studio = growStudio(plan);
    await withStudio(studio.files, async (folder) => {
      const opened = await openFolder(folder, studio.asOf);
      for (const draft of choices.flatMap((each) => draftOf(studio, opened, each))) {
        const { findings } = lookAtDraft(opened, draft);
        expect(sorted(findings)).toEqual(sorted(lookAtAll(opened, draft)));
        tally[findings.length > 0 ? 'said' : 'quiet'] += 1;
      }
    });
  });
  await holds(property, 4);
  expect(tally.quiet).toBeGreaterThan(cases(4) / 2);
  expect(tally.said).toBeGreaterThan(cases(4) / 2);
});
