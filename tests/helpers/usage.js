/** Loaded before a program, it writes at its end what the program took: seconds of processor, MiB of memory. */
import { readFileSync, writeFileSync } from 'node:fs';
import process from 'node:process';

process.on('exit', () => {
  const { user, system } = process.cpuUsage();
  // The peak that the system counts for a child may be that of its parent.
  const own = /VmHWM:\s*(\d+)/.exec(readFileSync('/proc/self/status', 'utf8'))?.[1];
  const usage = { seconds: (user + system) / 1e6, mebibytes: Number(own) / 1024 };
  writeFileSync(String(process.env['SAGGAR_TEST_USAGE']), JSON.stringify(usage));
});
