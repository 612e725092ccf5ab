/**
 * Find the ratio of a scale given as a length to the foot.
 *
 * @param mm - Of the model, to one foot of the real thing; above 0.
 * @returns Real over model: 76.2 for 4 mm.
 * @see International Yard and Pound Agreement, 1959: 1 ft = 304.8 mm exactly
 */
export function perFoot(mm: number): number {
  // Tenths keep 1/4 in to the foot at 48 and not a bit more.
  return 3048 / (mm * 10);
}
