import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { builtProgram, demoCopy, emptyFolder, runSaggar, EXAMPLE_DAY } from '../helpers/program.ts';

const TODAY = ['--as-of', EXAMPLE_DAY];
const SETTINGS = 'format: 1\nname: Test\ncurrency: USD\n';

/** A studio with these materials. */
function studio(materials: string): string {
  const folder = emptyFolder();
  writeFileSync(join(folder, 'studio.yaml'), SETTINGS);
  writeFileSync(join(folder, 'materials.yaml'), materials);
  return folder;
}

const BROKEN = 'kaolin:\n  name: Kaolin\n  kind: powder\n  unit: kg\n';

describe('the status', () => {
  it('is 0 where nothing is wrong', async () => {
    const folder = studio('kaolin:\n  name: Kaolin\n  kind: dry\n  unit: kg\n');
    expect(await runSaggar(['check'], { folder })).toMatchObject({ status: 0, err: '' });
  });

  it('is 0 with warnings, and 1 when they are to count', async () => {
    const folder = demoCopy();
    expect(await runSaggar(['check', ...TODAY], { folder })).toMatchObject({ status: 0 });
    expect(await runSaggar(['check', '--strict', ...TODAY], { folder })).toMatchObject({
      status: 1,
    });
  });

  it('is 1 where errors are found, and a report says that they stand in the way', async () => {
    const folder = studio(BROKEN);
    const check = await runSaggar(['check'], { folder });
    expect(check.status).toBe(1);
    expect(check.out).toContain('materials.yaml:3:');
    const report = await runSaggar(['materials'], { folder });
    expect(report.status).toBe(1);
    expect(report.out).toContain('Materials on hand');
    expect(report.err).toBe(
      'saggar: 1 error: records with errors are left out of these figures. Run: saggar check\n',
    );
  });

  it('is 2 where there is no studio', async () => {
    const { status, out, err } = await runSaggar(['check'], { folder: emptyFolder() });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(/^saggar: there is no studio\.yaml in .*; .*--studio FOLDER\n$/);
  });

  it('is 2 where the studio that is named is none', async () => {
    const folder = emptyFolder();
    const { status, err } = await runSaggar(['check', '--studio', join(folder, 'no')]);
    expect(status).toBe(2);
    expect(err).toContain('there is no studio.yaml in');
  });

  it('is 130 where it was interrupted while it waited, and nothing is written', async () => {
    await builtProgram();
    const folder = demoCopy();
    const before = readdirSync(folder, { recursive: true }).length;
    // As a terminal does: the whole group gets the signal, and the shell tells how the program ended.
    const script = `trap : INT; "$0" "$1" add sales - ; echo "status $?"`;
    const program = join(import.meta.dirname, '../../bin/saggar.js');
    const shell = spawn('sh', ['-c', script, process.execPath, program], {
      cwd: folder,
      detached: true,
      stdio: ['pipe', 'pipe', 'inherit'],
    });
    let out = '';
    shell.stdout.setEncoding('utf8').on('data', (text: string) => (out += text));
    await new Promise((done) => setTimeout(done, 1500));
    process.kill(-(shell.pid ?? 0), 'SIGINT');
    await once(shell, 'close');
    expect(out).toBe('status 130\n');
    expect(readdirSync(folder, { recursive: true })).toHaveLength(before);
  });

  it('is 130 where an export was interrupted, and nothing of it is left', async () => {
    const folder = demoCopy();
    const trap = join(folder, 'trap.cjs');
    // The signal comes when the fifth file is opened to be written, so when some are there already.
    writeFileSync(
      trap,
      `const fs = require('node:fs');
       const { openSync } = fs;
       let left = 5;
       fs.openSync = (...words) => {
         if (words[1] === 'wx' && String(words[0]).includes('.out-') && (left -= 1) === 0)
           process.kill(process.pid, 'SIGINT');
         return openSync(...words);
       };`,
    );
    const before = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
    const env = { NODE_OPTIONS: `--require=${trap}` };
    const { status } = await runSaggar(['export', 'to/out', ...TODAY], { env, folder });
    expect(status).toBe(130);
    expect(readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()).toEqual(before);
  });

  it('is 0 where a reader of the output has enough', async () => {
    const folder = demoCopy();
    const program = join(import.meta.dirname, '../../bin/saggar.js');
    await builtProgram();
    const script = `set -o pipefail; "$0" "$1" income --as json ${TODAY.join(' ')} | head -c 10`;
    const shell = spawn('bash', ['-c', script, process.execPath, program], { cwd: folder });
    let err = '';
    shell.stderr.setEncoding('utf8').on('data', (text: string) => (err += text));
    const [status] = (await once(shell, 'close')) as [number];
    expect({ status, err }).toEqual({ status: 0, err: '' });
  });
});

describe('a failure inside', () => {
  it('is told in a sentence, without a stack trace, and with signs that act shown', async () => {
    const folder = emptyFolder();
    const trap = join(folder, 'trap.cjs');
    writeFileSync(
      trap,
      `require('node:os').hostname = () => { throw new Error('bang\\u001b[31m'); };`,
    );
    const env = { NODE_OPTIONS: `--require=${trap}` };
    const { status, out, err } = await runSaggar(['check'], { env });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toBe(
      'saggar: something went wrong inside the program: bang\\u{1B}[31m\n' +
        'No file is left half written. Please report it with the command that you typed.\n',
    );
  });
});

describe('a line that is not understood', () => {
  it.each([
    [['matrials'], 'there is no command "matrials"; did you mean materials?'],
    [['xyzzy', '--by', 'x'], 'there is no command "xyzzy"; saggar help lists the commands'],
    [['\u001b[31m'], 'there is no command "\\u{1B}[31m"; saggar help lists the commands'],
    [['complete-wrds'], 'there is no command "complete-wrds"; saggar help lists the commands'],
    [['--hepl'], 'there is no option --hepl; did you mean --help?'],
    [['--qqq'], 'there is no option --qqq; saggar help lists the options'],
    [['-q'], 'there is no option -q; saggar help lists the options'],
    [
      ['--window', '9', 'materials'],
      '--window goes after a command, as in saggar materials --window',
    ],
    [['materials', '--windw', '3'], 'materials has no option --windw; did you mean --window?'],
    [
      ['materials', '--qqq=3'],
      'materials has no option --qqq; saggar help materials lists the options',
    ],
    [
      ['check', '--window', '9'],
      'check has no option --window; saggar help check lists the options',
    ],
    [['materials', '--where=3'], '--where takes no value; write --where alone'],
    [['materials', '--window'], '--window needs days: days that usage is measured over (90)'],
    [['completion'], 'completion needs bash, zsh or fish, as in saggar completion bash'],
    [
      ['completion', 'bsh'],
      '"bsh" is not a choice for completion: use bash, zsh, fish; did you mean bash?',
    ],
    [
      ['pieces', '--by', 'plce'],
      '"plce" is not a choice for --by: use product, place; did you mean place?',
    ],
    [
      ['losses', 'mug'],
      'losses takes options only, and not "mug"; saggar help losses shows examples',
    ],
    [
      ['materials', 'kaolin', 'grog'],
      'materials takes one id, and not "grog"; saggar help materials shows examples',
    ],
    [
      ['materials', 'kaolni'],
      'there is no material or recipe "kaolni" in this studio; did you mean kaolin?',
    ],
  ])('%j', async (args, message) => {
    const { status, out, err } = await runSaggar(args);
    expect({ status, out, err }).toEqual({ status: 2, out: '', err: `saggar: ${message}\n` });
  });

  it('names every choice of an option that lacks its value', async () => {
    const { status, err } = await runSaggar(['pieces', '--by']);
    expect({ status, err }).toEqual({
      status: 2,
      err: 'saggar: --by needs one of product, place\n',
    });
  });
});
