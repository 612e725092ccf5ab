// In mm of paper. A line under the least prints as a row of dots; common practice, no source, as are the
// 0.3 mm and 0.2 mm of a girder 3.5 mm deep.
/** The least that a line measures, and that lies between two. */
export const leastLine = 0.2;
/** The most that the line of an outer edge measures. */
export const widestLine = 0.3;

/** Of shade: what no eye tells. */
export const unseen = 0.004;

/** How opaque each kind of mark is at full strength, seen on proofs at arm's length. */
export const inks = {
  /** Of an edge that faces the light, or faces away from it. */
  line: 0.9,
  /** Of an edge that the light runs along: what lies deeper is a little dark beside it. */
  along: 0.4,
  /** Of the gap where boards end against one another. */
  gap: 0.6,
  /** Of what lies deeper than the flanges. */
  recess: 0.25,
  /** Of what a flange keeps the light from. */
  shadow: 0.5,
  /** Of a rounded corner where it is steepest. */
  fillet: 0.6,
} as const;
