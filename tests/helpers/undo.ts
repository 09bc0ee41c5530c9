/** Runs the undo that a command printed, as somebody pastes it into a shell. */
import { expect } from 'vitest';
import { runShell } from './program.ts';

/** What stands after "Undo:", to the end. */
export function undoIn(out: string): string {
  return /^Undo(?: \([^\n]*\))?:\s([\s\S]*)$/m.exec(out)?.[1] ?? 'echo "there is no undo"; false';
}

/** Pastes it in a folder, into a shell; it has to go through. */
export async function pasteUndo(
  out: string,
  folder: string,
  shell: 'sh' | 'bash' = 'bash',
): Promise<void> {
  const undo = undoIn(out).split('\nStill in the kiln')[0] ?? '';
  const ran = await runShell([shell, '-c'], undo, { folder, env: { SAGGAR_MEMORY: 'none' } });
  expect({ undo, ...ran }).toMatchObject({ undo, status: 0 });
}
