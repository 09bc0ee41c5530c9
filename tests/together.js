// Runs scripts of package.json beside each other, and shows what each said when it is over.
import { spawn } from 'node:child_process';

/** @param {string} script */
async function ended(script) {
  const child = spawn('npm', ['run', '--silent', script], { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text) => (said += text));
  const status = await new Promise((done) => child.on('close', done));
  console.log(`${script}: ${status === 0 ? 'well' : 'FAILED'}\n${said}`.trimEnd());
  if (status !== 0) process.exitCode = 1;
}

await Promise.all(process.argv.slice(2).map(ended));
