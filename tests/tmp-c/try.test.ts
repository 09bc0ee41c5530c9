import { it } from 'vitest';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { commitAll, git } from '../helpers/git.ts';
import { runCommand } from '../helpers/studio-commands.ts';
import { exampleCopy } from '../helpers/temp-studio.ts';
const E: Record<string, [string, string, string][]> = {
 currency: [['studio.yaml','currency: USD','currency: EUR']],
 basis: [['studio.yaml','basis: cash','basis: accrual']],
 stockvalue: [['studio.yaml','stock-value: average','stock-value: first-in']],
 yearstarts: [['studio.yaml','year-starts: "01-01"','year-starts: "04-06"']],
 labour: [['studio.yaml','labour-rate: 24.00','labour-rate: 30.00']],
 clay: [['products.yaml','each: 1.1 lb','each: 1.4 lb']],
 commission: [['channels.yaml','commission: 40%','commission: 45%']],
 cone: [['firings/2026/f260511cq.yaml','cone: "05"','cone: "5"']],
 category: [['spent/2026-06.yaml','for: ','for: tools # ']],
};
const only = process.env['ONLY']?.split(',');
it('try', async () => {
  for (const [name, edits] of Object.entries(E)) {
    if (only && !only.includes(name)) continue;
    const folder = exampleCopy();
    git(folder, 'init', '-q', '-b', 'main'); commitAll(folder, 'Begin');
    for (const [f, a, b] of edits) { const p = join(folder, f); const t = readFileSync(p,'utf8'); if (!t.includes(a)) console.log('NOT THERE', f, a); writeFileSync(p, t.replace(a, b)); }
    const t = Date.now();
    const { out, status, complaints } = await runCommand('review', {}, { argument: 'main', folder });
    console.log(`=== ${name} status ${status} ${Date.now()-t}ms\n${out}${complaints}`);
  }
}, 600000);
