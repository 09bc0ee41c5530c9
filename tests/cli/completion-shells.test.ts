import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMPLETE_WORDS } from '../../src/commands/catalogue.ts';
import { isInstalled } from '../helpers/needed.ts';
import { emptyFolder } from '../helpers/program.ts';
import { fish, script, zsh } from '../helpers/shell-completion.ts';

describe.skipIf(!isInstalled('zsh'))('zsh', () => {
  it('completes commands, choices and ids, with what they are', async () => {
    const [first, ...rest] = await zsh(['saggar', 'mat']);
    expect(first).toBe('options -l|-V|saggar|-d|shown|-a|replies');
    expect(rest[0]).toBe('materials');
    expect(rest[1]).toMatch(/^materials {2}say what is left/);
    expect((await zsh(['saggar', 'pieces', '--by=p'])).slice(1, 3)).toEqual([
      '--by=product',
      '--by=place',
    ]);
    expect((await zsh(['saggar', 'quarter', '2026-'])).slice(1, 3)).toEqual(['2026-Q2', '2026-Q1']);
    expect((await zsh(['saggar', 'materials', 'kao'])).slice(1)).toEqual([
      'kaolin',
      'kaolin  material Kaolin',
    ]);
  });

  it('completes the words of a line', async () => {
    const found = await zsh(['saggar', 'add', 'sales', '--line', '2 tum']);
    expect(found.slice(1)).toEqual(['2 tumbler', '2 tumbler  Tumbler']);
  });

  it('puts no space behind a beginning', async () => {
    const [first, second] = await zsh(['saggar', 'amend', 's260630db', 'pa']);
    expect(first).toBe('options -l|-V|saggar|-S||-d|shown|-a|replies');
    expect(second).toBe('paid=');
  });

  it('leaves folders to zsh, and offers nothing where there is nothing', async () => {
    expect(await zsh(['saggar', 'init', 'po'])).toEqual(['_files -/']);
    expect(await zsh(['saggar', 'check', '--studio=po'])).toEqual(['compset -P *=', '_files -/']);
    expect(await zsh(['saggar', 'zzz'])).toEqual([]);
    expect(await zsh(['saggar', 'materials', ''], emptyFolder())).toEqual([]);
  });
});

describe.skipIf(!isInstalled('fish'))('fish', () => {
  it('completes commands, choices and ids, with what they are', async () => {
    expect(await fish('saggar mat')).toEqual([
      expect.stringMatching(/^materials\tsay what is left/) as string,
    ]);
    expect(await fish('saggar pieces --by ')).toEqual(['product', 'place']);
    expect(await fish('saggar pieces --by=pr')).toEqual(['--by=product']);
    expect(await fish('saggar quarter --sheet pl')).toEqual(['plain\tPlain profit and loss']);
    expect(await fish("saggar materials 'kao")).toEqual(['kaolin\tmaterial Kaolin']);
    expect(await fish('saggar firings f26060')).toEqual([
      'f260605gr\t2026-06-05 glaze 6 big-kiln',
      'f260602xp\t2026-06-02 bisque 05 big-kiln',
    ]);
  });

  it('completes the words of a line', async () => {
    expect(await fish('saggar add sales --line "2 tum')).toEqual(['2 tumbler\tTumbler']);
    expect(await fish('saggar add sales --line 2\\ tum')).toEqual(['2 tumbler\tTumbler']);
    expect(await fish('saggar add sales --line "2 mug oat')).toEqual([
      '2 mug oatmeal\tOatmeal matte',
    ]);
  });

  it('completes folders, and nothing where there is nothing', async () => {
    const folder = emptyFolder();
    mkdirSync(join(folder, 'pots'));
    writeFileSync(join(folder, 'potsherd'), '');
    expect(await fish('saggar init po', folder)).toEqual(['pots/']);
    expect(await fish('saggar check --studio=po', folder)).toEqual(['--studio=pots/']);
    expect(await fish('saggar zzz', folder)).toEqual([]);
  });
});

describe('the scripts', () => {
  it.each(['bash', 'zsh', 'fish'])(
    '%s: name no command but the one that answers',
    async (shell) => {
      const text = (await script(shell)).replace(/^#.*$/gm, '');
      const named = [...text.matchAll(/\bsaggar ([a-z][a-z-]+)/g)].map(([, name]) => name);
      expect(new Set(named)).toEqual(new Set([COMPLETE_WORDS.name]));
    },
  );

  it.each(['bash', 'zsh', 'fish'])('%s: say how to install it', async (shell) => {
    expect(await script(shell)).toMatch(new RegExp(`^#.*saggar completion ${shell}`, 'm'));
  });
});
