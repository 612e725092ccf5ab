/** A rectangle whose sides are the middles of joints, in pixels of a picture. */
export interface Cell {
  /** Left. */
  readonly left: number;
  /** Top. */
  readonly top: number;
  /** Right. */
  readonly right: number;
  /** Bottom. */
  readonly bottom: number;
}
