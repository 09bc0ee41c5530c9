/** What is kept of a picture. */
import type { Buffer } from 'node:buffer';

/** A picture without metadata. */
export interface PlainPicture {
  readonly type: 'image/jpeg' | 'image/png' | 'image/webp';
  readonly width: number;
  readonly height: number;
  readonly bytes: Buffer;
}
