/** Finds the studio that a command is for, and the day; nothing of it is read yet. */
import type { Day } from '../book.ts';
import { findStudio } from '../read/find.ts';
import { askedDay } from './span.ts';
import { textOption, type Asked, type Refusal, type World } from './world.ts';

/** A studio that was found, and the day that it is looked at. */
export interface Found {
  readonly folder: string;
  readonly asOf: Day;
}

/** Finds the studio that is asked for; refuses when there is none or when the day is no day. */
export function findAsked(asked: Asked, world: World): Found | Refusal {
  const asOf = askedDay(asked, world);
  if (typeof asOf !== 'string') return asOf;
  const folder = askedFolder(asked, world);
  return typeof folder === 'string' ? { folder, asOf } : folder;
}

function askedFolder(asked: Asked, world: World): string | Refusal {
  const named = textOption(asked, 'studio');
  const folder = findStudio(named ?? world.folder);
  if (folder !== undefined) return folder;
  const where = named ?? 'this folder or any above it';
  return {
    refused: `there is no studio.yaml in ${where}; go to your studio's folder, or name it with --studio FOLDER`,
  };
}
