/** Markup that can't be broken out of: whatever is put into a template is escaped, unless it is markup itself. */
import { visible } from '../escape.ts';

/** A piece of HTML that is safe where an element's content may stand. */
export interface Markup {
  readonly markup: string;
}

/** What may stand in a template: text and numbers are escaped, nothing shows nothing. */
type TemplatePart = string | number | undefined | Markup | readonly Markup[];

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * Text as it may stand in an element and in a quoted attribute: marks of HTML as entities, and signs
 * that can't be seen or that act on their surroundings written out.
 */
function escapeHtml(text: string): string {
  return visible(text).replace(/[&<>"']/g, (sign) => ENTITIES[sign] ?? sign);
}

/**
 * Markup of a template; attributes in it stand in double quotes. Lines of the template begin at the
 * margin, however far in they stand in the code.
 */
export function markup(fixed: TemplateStringsArray, ...parts: readonly TemplatePart[]): Markup {
  const texts = parts.map((part, at) => asText(part) + outdented(fixed[at + 1] ?? ''));
  return { markup: outdented(fixed[0] ?? '') + texts.join('') };
}

/** Pieces of markup below each other, a line for each. */
export function lines(pieces: readonly Markup[]): Markup {
  return { markup: pieces.map(({ markup }) => markup).join('\n') };
}

/** Nothing. */
export const NO_MARKUP: Markup = { markup: '' };

function outdented(text: string): string {
  return text.includes('\n') ? text.replace(/\n +/g, '\n') : text;
}

function asText(part: TemplatePart): string {
  if (part === undefined) return '';
  if (typeof part === 'number') return String(part);
  if (typeof part === 'string') return escapeHtml(part);
  return 'markup' in part ? part.markup : part.map(({ markup }) => markup).join('');
}
