/** The sheets of limits for lead and cadmium that come with the program, and the one that a studio names. */
import { LEACH_LIMITS } from '../../../schema/generated/leach-limits.js';
import type { LeachLimits, Studio } from '../../book.ts';

/** The limits that claims are held against; undefined where the studio names none. */
export function limitsOf({ leachLimits, ownLimits }: Studio): LeachLimits | undefined {
  return leachLimits === undefined || leachLimits === 'own' ? ownLimits : LEACH_LIMITS[leachLimits];
}

/** Whether a laboratory's method is one that the limits go by; false where none is on record. */
export function isMethodOf({ methods }: LeachLimits, method: string | undefined): boolean {
  if (methods === undefined) return true;
  const said = closely(method ?? '');
  return methods.some((each) => said.includes(closely(each)));
}

/** `Acetic acid, 4%, 24 h` and `acetic acid 4 %, 24 h` are one. */
function closely(text: string): string {
  return text.toLowerCase().replace(/[\s,;:()-]+/g, '');
}
