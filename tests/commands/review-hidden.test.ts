import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FIELDS } from '../../schema/generated/fields.js';
import type { FieldSpec } from '../../schema/generated/fields.js';
import { review } from '../../src/commands/review/review.ts';
import { run } from '../helpers/command-world.ts';
import { git, inGit } from '../helpers/git.ts';
import { tempStudio } from '../helpers/temp-studio.ts';

/** Stands in every text; no id, date or word of the program has it. */
const NAME = 'Qzwx';
/** Every figure of money has these digits. */
const MONEY = '7391';

/** A value for a field of every type; texts and money are marked, and money is another at every turn. */
function sample(spec: FieldSpec, turn: number): unknown {
  if (spec.type === 'text') return `${NAME} ${String(turn)} @team #12 https://a.example`;
  if (spec.type === 'list') return [sample(spec.of, turn)];
  if (spec.type === 'map') return mapOf(spec.example, sample(spec.of, turn));
  if (spec.type === 'either') return sample(spec.other, turn);
  if (spec.type !== 'record')
    return MONEY_TYPES.has(spec.type) ? `${MONEY}.${String(10 + turn)}` : spec.example;
  const fields = Object.entries(spec.fields).filter(([key]) => isWanted(spec, key));
  return Object.fromEntries(
    fields.map(([key, field]) => [key, FORMED[key] ?? sample(field, turn)]),
  );
}

/** Texts that have a form of their own, which no name could have. */
const FORMED: Readonly<Record<string, string>> = { list: 'shop', number: 'A0012' };

const MONEY_TYPES: ReadonlySet<string> = new Set(['amount', 'rate', 'discount']);

function mapOf(example: string, value: unknown): unknown {
  return Object.fromEntries(Object.keys(JSON.parse(example) as object).map((key) => [key, value]));
}

/** One of the fields that stand for each other, and all the others. */
function isWanted(spec: FieldSpec & { type: 'record' }, key: string): boolean {
  const { oneOf = [], atMostOneOf = [] } = spec;
  const others = [oneOf, atMostOneOf].find((keys) => keys.includes(key));
  return others === undefined || others[0] === key;
}

/** A record of every kind with every field, in a file a kind. */
function studioAt(turn: number): Record<string, string> {
  const files = Object.entries(FIELDS).map(([kind, spec]) => {
    const record = { ...(sample(spec, turn) as object) };
    const settings = {
      ...record,
      format: '1',
      currency: 'USD',
      'year-starts': '01-01',
      'tax-sheet': 'plain',
      'closed-through': '2020-01-01',
    };
    const content = kind === 'studio' ? settings : { [`${kind}-one`]: record };
    return [`${kind}.yaml`, JSON.stringify(content, null, 1)];
  });
  return Object.fromEntries(files) as Record<string, string>;
}

function rewrite(folder: string, files: Readonly<Record<string, string>>): void {
  for (const [file, text] of Object.entries(files)) writeFileSync(join(folder, file), text);
}

async function shown(folder: string, as: string, without: string | undefined): Promise<string> {
  const options = { as, asOf: '2026-06-30', ...(without === undefined ? {} : { without }) };
  const { out, err } = await run(review, folder, { words: ['main'], options });
  return out + err;
}

function studio(): string {
  const folder = inGit(tempStudio(studioAt(0)));
  git(folder, 'branch', '-M', 'main');
  return folder;
}

const FORMATS = ['text', 'json', 'markdown'];
const WORKS: Record<string, (folder: string) => void> = {
  changed: (folder) => {
    rewrite(folder, studioAt(1));
  },
  added: (folder) => {
    for (const file of readdirSync(folder).filter(
      (name) => name.endsWith('.yaml') && name !== 'studio.yaml',
    ))
      rewrite(folder, { [file]: readFileSync(join(folder, file), 'utf8').replace('-one', '-two') });
  },
  broken: (folder) => {
    rewrite(folder, {
      'spent.yaml': `x: { to: ${NAME}, amount: ${MONEY}.123, no: 1 }\n${NAME}: "`,
    });
  },
};

describe.each(Object.entries(WORKS))('of records that were %s', (_, work) => {
  it.each(FORMATS)('%s tells no names and no money where they are left out', async (as) => {
    const folder = studio();
    work(folder);
    const hidden = await shown(folder, as, 'names,prices');
    expect(hidden.length).toBeGreaterThan(200);
    expect(hidden).not.toContain(NAME);
    expect(hidden.replaceAll(',', '')).not.toContain(MONEY);
    expect(await shown(folder, as, 'names')).not.toContain(NAME);
    expect((await shown(folder, as, 'prices')).replaceAll(',', '')).not.toContain(MONEY);
  });
});

describe('without leaving anything out', () => {
  it('the marked words are there, so the test above looks for what can be seen', async () => {
    const folder = studio();
    WORKS['changed']?.(folder);
    const out = await shown(folder, 'json', undefined);
    const changed = (JSON.parse(out) as { changes: { kind: string; fields: { path: string }[] }[] })
      .changes;
    expect(new Set(changed.map(({ kind }) => kind)).size).toBeGreaterThan(15);
    expect(out.split(NAME).length).toBeGreaterThan(60);
    expect(out.split(MONEY).length).toBeGreaterThan(30);
  });

  it('a comment mentions nobody, links nowhere and has no markup of the book', async () => {
    const folder = studio();
    WORKS['changed']?.(folder);
    const out = await shown(folder, 'markdown', undefined);
    expect(out).toContain(NAME);
    expect(out).not.toMatch(/@team|#12|https:\/\//);
  });

  it('HTML of the book is text in a comment', async () => {
    const folder = studio();
    rewrite(folder, {
      'fairs.yaml': JSON.stringify({
        k1: { name: '</details><img src=x> --> | `a`', channel: 'x', date: '2026-01-01' },
      }),
    });
    const out = await shown(folder, 'markdown', undefined);
    expect(out).toContain('&lt;/details&gt;&lt;img');
    expect(out).not.toMatch(/<img/);
  });

  it('the same twice is the same to the byte', async () => {
    const folder = studio();
    WORKS['changed']?.(folder);
    for (const as of FORMATS)
      expect(await shown(folder, as, undefined)).toBe(await shown(folder, as, undefined));
  });

  it('a word that can not be left out is refused', async () => {
    expect(await shown(studio(), 'text', 'name')).toBe(
      'saggar: "name" is not a choice for --without: use names, prices; did you mean names?\n',
    );
  });
});
