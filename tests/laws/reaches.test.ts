/** What a rule finds changes only with what it declares to look at, or is seen to ask for. */
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { KINDS, type Book } from '../../src/book.ts';
import { finishBook, type TakenFile } from '../../src/check/draft.ts';
import { spot } from '../../src/check/finding.ts';
import { foundTogether, type FoundParts, type StateBefore } from '../../src/check/going-on.ts';
import { foundIn } from '../../src/check/looking.ts';
import { each, over, type Rule, type Short, type Unsound } from '../../src/check/rule.ts';
import { RULES } from '../../src/check/rules.ts';
import { shortIn } from '../../src/check/shortfalls.ts';
import { unsoundIn } from '../../src/check/unsound.ts';
import { digestOf } from '../../src/digest.ts';
import type { Finding } from '../../src/problem.ts';
import type { RawFile, RawMap } from '../../src/read/raw.ts';
import { countsFlow } from '../../src/reckon/flow.ts';
import { rawFile } from '../helpers/file-views.ts';
import { fixtureTexts } from '../helpers/fixtures.ts';
import { randomSource } from '../helpers/random-source.js';
import { growStudio, studioPlan, type StudioPlan } from '../helpers/random-studio.ts';
import { edited, without } from './support/edited.ts';
import { takeIn, type TakenIn } from '../../src/check/taken.ts';
import { holds } from '../helpers/law.ts';
import { cases } from '../helpers/tier.ts';

const EDITS = 12;

function sorted(findings: readonly Finding[]): readonly string[] {
  return findings.map((finding) => JSON.stringify(finding)).sort();
}

type State = readonly RawFile[];

/** The files whose kind is told by their folder or name. */
function filesIn(texts: Iterable<readonly [string, string]>): State {
  return [...texts].flatMap(([file, text]) => {
    const name = file.replace(/(?:\/.*|\.yaml)$/, '');
    const kind = (['studio', ...KINDS] as const).find((each) => each === name);
    return kind === undefined ? [] : [rawFile(kind, text, file)];
  });
}

/** The states of a studio that is edited again and again. */
function statesOf(plan: StudioPlan, seed: number): readonly State[] {
  const random = randomSource(seed, 'edit');
  let files = filesIn(Object.entries(growStudio(plan).files));
  const states = [files];
  for (let turn = 0; turn < EDITS; turn += 1) {
    const next = edited(files, random);
    states.push(next);
    // Some edits are taken back, so that what is wrong goes as well as comes.
    if (random.chance(0.4)) files = next;
  }
  return states;
}

/** A studio that keeps a rule and becomes one that breaks it file by file, then lacks each record once. */
function statesOfFixture(rule: string): readonly State[] {
  const [good, bad] = [filesIn(fixtureTexts(rule, 'good')), filesIn(fixtureTexts(rule, 'bad'))];
  const states = [good];
  for (const file of bad)
    states.push([...(states.at(-1) ?? []).filter((each) => each.file !== file.file), file]);
  states.push(bad);
  for (const file of bad.filter(({ kind }) => kind !== 'studio'))
    for (const id of Object.keys(file.root)) {
      const root = without(file.root, id);
      states.push(
        bad.map((each) => (each === file ? { ...file, root } : each)),
        bad,
      );
    }
  return states;
}

/** What was found in a state, and how much of it was not looked for again. */
interface Seen {
  readonly findings: readonly Finding[];
  readonly kept: number;
}

interface Watched {
  readonly day: string;
  readonly look?: (state: Seen) => void;
  readonly prepare?: (book: Book) => void;
}

/** Whether the findings that are put together are those of a look at the whole, state after state. */
function heldTogether(
  rules: readonly Rule[],
  states: readonly State[],
  { day, look, prepare }: Watched,
): boolean {
  let before: StateBefore | undefined;
  return states.every((files) => {
    const taken = takenFrom(files);
    const book = finishBook(taken.draft);
    const unsound = unsoundIn(taken.draft.unsound, []);
    prepare?.(book);
    const shortBeside = (doubted: Unsound): Short =>
      shortIn(countsFlow(book, day), { book, unsound: doubted });
    const whole = foundIn({ rules, book, unsound }, { day, shortBeside });
    // Where something is left out all is looked at anew, and nothing of it kept.
    const isWhole = taken.draft.isUnique && unsound.ids.size + unsound.kinds.size === 0;
    const together = isWhole ? foundTogether({ rules, taken, book, day, before }) : undefined;
    const { findings, parts } = together ?? { findings: whole };
    look?.({ findings, kept: parts ? keptOf(parts, before?.parts) : 0 });
    const typed = new Map(taken.draft.files.map((file) => [file.file, file.typed]));
    if (parts) before = { parts, typedIn: (file) => typed.get(file)?.() };
    return isDeepStrictEqual(sorted(findings), sorted(whole));
  });
}

function keptOf(parts: FoundParts, before: FoundParts | undefined): number {
  const files = [...parts.files].filter(([file, part]) => before?.files.get(file) === part);
  const looks = [...parts.over].filter(([name, part]) => before?.over.get(name) === part);
  return files.length + looks.length;
}

const takenBefore = new WeakMap<RawMap, TakenFile>();

/** A state taken in; a file without faults that has not changed is not typed again. */
function takenFrom(state: State): TakenIn {
  const files = state.map(
    (file) =>
      takenBefore.get(file.root) ?? { ...file, content: digestOf(JSON.stringify(file.root)) },
  );
  const taken = takeIn({ files, findings: [], coreOf: () => undefined });
  const clean = new Set(taken.clean.map(({ file }) => file));
  const roots = new Map(state.map(({ file, root }) => [file, root]));
  for (const file of taken.draft.files) {
    const root = clean.has(file.file) ? roots.get(file.file) : undefined;
    if (root) takenBefore.set(root, file);
  }
  return taken;
}

const edits = fc.record({ plan: studioPlan({ days: 30, breaks: 'some' }), seed: fc.nat() });

it('whatever is edited in whatever studio', () => {
  const told = new Set<string>();
  let kept = 0;
  const look = (state: Seen): void => {
    for (const { rule } of state.findings) told.add(rule);
    kept += state.kept;
  };
  const property = fc.property(edits, ({ plan, seed }) => {
    const day = growStudio(plan).asOf;
    expect(heldTogether(RULES, statesOf(plan, seed), { day, look })).toBe(true);
  });
  holds(property, 4);
  expect(told.size).toBeGreaterThan(3);
  expect(kept).toBeGreaterThan(cases(4) * 250);
});

it.each(RULES.map(({ name }) => name))('whether %s is kept or broken', (rule) => {
  const told = new Set<boolean>();
  const look = ({ findings }: Seen): void => {
    told.add(findings.some((finding) => finding.rule === rule));
  };
  const states = statesOfFixture(rule);
  expect(heldTogether(RULES, states, { day: '2026-06-30', look })).toBe(true);
  expect(told).toEqual(new Set([false, true]));
});

/** Rules that look at more than they say, each in its own way. */
const PLANTED: Readonly<Record<string, (whole: () => Book | undefined) => Rule['looks']>> = {
  'one record, and another that it did not ask for': (whole) => [
    each('pieces', (lot, { say }) => {
      const message = Object.keys(whole()?.products.get(lot.product) ?? {}).join(' ');
      say({ at: spot(lot), message, hint: '' });
    }),
  ],
  'one record, and how many others there are': (whole) => [
    each('channels', (channel, { say }) => {
      const message = String(whole()?.sales.size);
      say({ at: spot(channel), message, hint: '' });
    }),
  ],
  'some kinds, and one more': (whole) => [
    over({ channels: 'all' }, (book) =>
      [...book.channels.values()].map((channel) => {
        const sales = [...(whole()?.sales.values() ?? [])];
        const message = String(sales.filter((sale) => sale.channel === channel.id).length);
        return { at: spot(channel), message, hint: '' };
      }),
    ),
  ],
  'those of a kind that have a key, and others': () => [
    over({ sales: { having: 'returned' } }, (book) =>
      [...book.sales.values()].map((sale) => {
        return { at: spot(sale), message: String(sale.lines.length), hint: '' };
      }),
    ),
  ],
  'those of a kind that concern it, and others': () => [
    over({ sales: { where: ({ fee }) => fee !== undefined } }, (book) => [
      { at: { file: 'sales.yaml', path: [] }, message: String(book.sales.size), hint: '' },
    ]),
  ],
};

const HONEST: Rule['looks'] = [
  each('pieces', (lot, { book, say }) => {
    const message = Object.keys(book.products.get(lot.product) ?? {}).join(' ');
    say({ at: spot(lot), message, hint: '' });
  }),
  over({ pieces: 'all', sales: 'all' }, (book) =>
    [...book.pieces.values()].map((lot) => {
      const keys = Object.keys(book.products.get(lot.product) ?? {});
      return { at: spot(lot), message: `${keys.join(' ')} ${book.sales.size}`, hint: '' };
    }),
  ),
];

/** Whether a rule's findings hold together in each of some studios. */
function isHeld(
  looksBy: (whole: () => Book | undefined) => Rule['looks'],
  studios: number,
): boolean {
  let whole: Book | undefined;
  const looks = looksBy(() => whole);
  const rule: Rule = { name: 'planted', severity: 'error', about: 'Planted.', looks };
  const prepare = (book: Book): void => {
    whole = book;
  };
  for (const { plan, seed } of fc.sample(edits, { numRuns: studios, seed: 7 })) {
    const day = growStudio(plan).asOf;
    if (!heldTogether([rule], statesOf(plan, seed), { day, prepare })) return false;
  }
  return true;
}

it.each(Object.entries(PLANTED))('catches a rule that looks at %s', (_, looksBy) => {
  expect(isHeld(looksBy, 60)).toBe(false);
});

it('lets a rule be that looks at what it says', () => {
  expect(isHeld(() => HONEST, 8)).toBe(true);
});
