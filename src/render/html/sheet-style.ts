/** The look of a page of labelled lines: on a wall its first sentence is read from afar, on a phone by the thumb. */

/** On screens. */
export const SHEETS = `.sheet { columns: 3 19rem; column-gap: 3rem; }
.sheet > div { break-inside: avoid; border-top: 1px solid var(--rule); padding: 0.7rem 0 0.9rem; }
.sheet h3 { color: var(--quiet); font-size: 1rem; }
.sheet p { font-size: 1.15rem; }
.sheet .sum { font-weight: 600; }
.sheet ul { margin: 0; padding: 0; list-style: none; }
.sheet a, .sheet span, .sheet summary { display: flex; align-items: center; min-height: 44px; line-height: 1.3; }
.sheet a { color: inherit; text-decoration-color: var(--rule); }
.sheet summary { color: var(--quiet); }
.sheet code, .command code { overflow-wrap: anywhere; }
.command { font-size: 1.1rem; margin-bottom: 1.5rem; }
svg.share { margin-top: 0.4rem; }
svg .room { fill: none; stroke: var(--strong-rule); stroke-width: 2; }
main:has(.sheet) > .verdict p:not(.caution) { font-size: clamp(1.6rem, 1.1rem + 2.6vw, 3.2rem); line-height: 1.2; max-width: none; }
main:has(.sheet) > section + section { margin-top: 1.5rem; }
`;

/** On paper, where all of it is to go on one sheet. */
export const PRINTED_SHEETS = `.sheet { columns: 2; column-gap: 9mm; }
  .sheet > div { padding: 1.2mm 0 1.6mm; }
  .sheet h3, .sheet p, .command { font-size: 9.5pt; margin-bottom: 0; }
  .sheet a, .sheet span, .sheet summary { display: inline; }
  .sheet li { font-size: 9pt; line-height: 1.3; }
  svg.share { height: 3.5mm; }
  main:has(.sheet) > .verdict p:not(.caution) { font-size: 24pt; }
  main:has(.sheet) > section + section { margin-top: 4mm; }
  main:has(.sheet) > .records { display: none; }
`;
