/** Loaded into a process by `--import`: notes its peak memory and processor time as it ends. */
import { appendFileSync } from 'node:fs';
import process from 'node:process';
import { isMainThread } from 'node:worker_threads';

const target = process.env['SAGGAR_BENCH_PROBE'];

if (target !== undefined && isMainThread)
  process.on('exit', () => {
    const { maxRSS, userCPUTime, systemCPUTime } = process.resourceUsage();
    const note = { peakKb: maxRSS, cpuMs: (userCPUTime + systemCPUTime) / 1000 };
    appendFileSync(target, `${JSON.stringify(note)}\n`);
  });
