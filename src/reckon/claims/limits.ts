/** The sheets of limits for lead and cadmium that come with the program, and the one that a studio names. */
import euDirective from '../../../schema/leach-limits/eu-84-500.json' with { type: 'json' };
import usFda from '../../../schema/leach-limits/us-fda.json' with { type: 'json' };
import type { LeachLimits, Studio } from '../../book.ts';

/** The sheets by the names that settings give them. */
export const LEACH_SHEETS = {
  'us-fda': usFda as LeachLimits,
  'eu-84-500': euDirective as LeachLimits,
} as const;

/** The limits that claims are held against; undefined where the studio names none. */
export function limitsOf({ leachLimits, ownLimits }: Studio): LeachLimits | undefined {
  return leachLimits === undefined || leachLimits === 'own' ? ownLimits : LEACH_SHEETS[leachLimits];
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
