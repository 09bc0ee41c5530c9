import { chmodSync, mkdirSync, realpathSync, symlinkSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { duringPush, gitEnvironment, gitProgram } from '../../../src/read/git/program.ts';
import { tempStudio } from '../../helpers/temp-studio.ts';

function withGit(folder: string): string {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'git'), '#!/bin/sh\n');
  chmodSync(join(folder, 'git'), 0o755);
  return folder;
}

function found(studio: string, ...path: string[]): string | undefined {
  return gitProgram({ PATH: path.join(delimiter) }, studio);
}

describe('the program', () => {
  it('is the first on the PATH that may be run', () => {
    const home = tempStudio({ 'one/git': 'not a program', 'two/x': '' });
    const [three, four] = [withGit(join(home, 'three')), withGit(join(home, 'four'))];
    const studio = tempStudio({});
    expect(found(studio, join(home, 'one'), join(home, 'two'), three, four)).toBe(`${three}/git`);
    expect(found(studio, join(home, 'one'))).toBeUndefined();
    expect(gitProgram({}, studio)).toBeUndefined();
  });

  it('is not in the studio, by no way', () => {
    const studio = withGit(tempStudio({}));
    withGit(join(studio, 'bin'));
    const outside = tempStudio({});
    symlinkSync(join(studio, 'bin'), join(outside, 'linked'));
    mkdirSync(join(outside, 'there'));
    symlinkSync(join(studio, 'git'), join(outside, 'there/git'));
    const ways = [studio, `${studio}/bin`, `${outside}/linked`, `${outside}/there`];
    expect(found(studio, ...ways)).toBeUndefined();
    expect(found(studio, ...ways, withGit(`${outside}/real`))).toBe(`${outside}/real/git`);
  });

  it('is not where somebody happens to be', () => {
    expect(found(tempStudio({}), '', '.', 'bin', '../bin')).toBeUndefined();
  });
});

describe('the environment', () => {
  it('has the home and where its settings are, the absolute PATH, and nothing else that it was given', () => {
    const given = {
      HOME: '/home/a',
      XDG_CONFIG_HOME: 'settings',
      GIT_CONFIG_GLOBAL: '/home/a/settings',
      GIT_CONFIG_SYSTEM: '.settings',
      PATH: ['', '.', '/usr/bin', 'bin', '/bin'].join(delimiter),
      GIT_DIR: '/x',
      GIT_INDEX_FILE: '/x',
      GIT_WORK_TREE: '/x',
      GIT_COMMON_DIR: '/x',
      GIT_OBJECT_DIRECTORY: '/x',
      GIT_TRACE2_EVENT: '/x',
      GIT_ALLOW_PROTOCOL: 'ext',
      git_ssh: '/x',
      LD_PRELOAD: './x.so',
      EDITOR: 'x',
    };
    const { HOME, GIT_CONFIG_GLOBAL } = given;
    const ours = gitEnvironment({});
    expect(gitEnvironment(given)).toEqual({
      ...ours,
      PATH: ['/usr/bin', '/bin'].join(delimiter),
      HOME,
      GIT_CONFIG_GLOBAL,
    });
    expect(ours).toMatchObject({ GIT_ALLOW_PROTOCOL: '/', GIT_TRACE2_EVENT: '0', LC_ALL: 'C' });
  });

  it('has the place of what is being pushed where that is in the repository itself', () => {
    const gitDir = realpathSync(tempStudio({ 'objects/incoming/x': '', 'elsewhere/x': '' }));
    const incoming = join(gitDir, 'objects/incoming');
    expect(duringPush({ GIT_QUARANTINE_PATH: incoming }, gitDir)).toEqual({
      GIT_OBJECT_DIRECTORY: incoming,
      GIT_ALTERNATE_OBJECT_DIRECTORIES: `"${gitDir}/objects"`,
    });
    symlinkSync(join(gitDir, 'elsewhere'), join(gitDir, 'objects/linked'));
    for (const place of [
      'elsewhere',
      'objects',
      'objects/linked',
      'objects/gone',
      'objects/incoming/x',
    ])
      expect(duringPush({ GIT_QUARANTINE_PATH: join(gitDir, place) }, gitDir)).toEqual({});
    expect(duringPush({ GIT_OBJECT_DIRECTORY: incoming }, gitDir)).toEqual({});
  });
});
