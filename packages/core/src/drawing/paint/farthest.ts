/** Past this a figure slipped: a PDF has no such numbers (ISO 32000-1, annex C). */
export const farthest = 1e9;
