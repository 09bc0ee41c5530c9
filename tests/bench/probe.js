/** Loaded into a process by `--import`: notes its peak memory in KiB as it ends. */
import { appendFileSync } from 'node:fs';
import process from 'node:process';
import { isMainThread } from 'node:worker_threads';

const target = process.env['SAGGAR_BENCH_PROBE'];

if (target !== undefined && isMainThread)
  process.on('exit', () => {
    appendFileSync(target, `${process.resourceUsage().maxRSS}\n`);
  });
