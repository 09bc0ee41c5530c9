import { describe, expect, it } from 'vitest';
import { memoryPlace, stateFolder } from '../src/home.ts';

const home = {
  environment: {},
  folder: '/home/potter',
  platform: 'linux',
  host: 'wheel',
  user: 1000,
  clock: () => 0,
};

describe('where things are remembered', () => {
  it('is the usual place for caches of each system', () => {
    expect(memoryPlace(home)?.folder).toBe('/home/potter/.cache/saggar');
    expect(memoryPlace({ ...home, platform: 'darwin' })?.folder).toBe(
      '/home/potter/Library/Caches/saggar',
    );
  });

  it('follows XDG_CACHE_HOME, but not a path that is not absolute', () => {
    const asked = (path: string): string | undefined =>
      memoryPlace({ ...home, environment: { XDG_CACHE_HOME: path } })?.folder;
    expect(asked('/fast/disk')).toBe('/fast/disk/saggar');
    expect(asked('here')).toBe('/home/potter/.cache/saggar');
    expect(asked('')).toBe('/home/potter/.cache/saggar');
  });

  it('is what SAGGAR_MEMORY names, and nowhere with none', () => {
    const asked = (named: string): ReturnType<typeof memoryPlace> =>
      memoryPlace({ ...home, environment: { SAGGAR_MEMORY: named, XDG_CACHE_HOME: '/fast' } });
    expect(asked('/mine')).toMatchObject({ folder: '/mine', home: '/home/potter', isNamed: true });
    expect(asked('none')).toBeUndefined();
    expect(asked('')).toMatchObject({ folder: '/fast/saggar', isNamed: false });
  });

  it('is nowhere without a home', () => {
    expect(memoryPlace({ ...home, folder: '' })).toBeUndefined();
  });
});

describe('where it is noted what is under way', () => {
  it('is the usual place for states, or what XDG_STATE_HOME names', () => {
    expect(stateFolder(home)).toBe('/home/potter/.local/state/saggar');
    expect(stateFolder({ ...home, environment: { XDG_STATE_HOME: '/s' } })).toBe('/s/saggar');
    expect(stateFolder({ ...home, folder: '' })).toBeUndefined();
  });
});
