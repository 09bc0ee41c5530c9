/** Fingerprints of what files and texts hold. */
import { createHash } from 'node:crypto';

/** A fingerprint that nobody can make another content fit (SHA-256, in hexadecimal digits). */
export function digestOf(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}
