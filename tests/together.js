/** Runs scripts of package.json beside each other, and shows what each said when it is over. */
import { spawn } from 'node:child_process';
import process from 'node:process';

/** @param {string} script */
function run(script) {
  const child = spawn('npm', ['run', '--silent', script], { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (/** @type {string} */ text) => {
      said += text;
    });
  child.on('close', (status) => {
    process.stdout.write(`${script}: ${status === 0 ? 'well' : 'FAILED'}\n${said}`);
    if (status !== 0) process.exitCode = 1;
  });
}

process.argv.slice(2).forEach(run);
