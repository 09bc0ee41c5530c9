/** The day on which random studios begin, so that all of them are alike in their days. */
export const FIRST_DAY = '2025-09-20';
