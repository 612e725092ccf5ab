/** A tile in the making. Light is in square roots, where equal steps look about equal. */
export interface Canvas {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Red, green, blue; row by row. */
  readonly planes: readonly [Float32Array, Float32Array, Float32Array];
  /** How like mortar each pixel is. */
  readonly likeness: Float32Array;
  /** 1 where something lies already. */
  readonly filled: Uint8Array;
}

/** A patch of a photo, in the same units. */
export interface Patch {
  /** Columns. */
  readonly width: number;
  /** Rows. */
  readonly height: number;
  /** Red, green, blue; row by row. */
  readonly planes: readonly [Float32Array, Float32Array, Float32Array];
  /** How like mortar each pixel is. */
  readonly likeness: Float32Array;
}

/**
 * Make an empty canvas.
 *
 * @param width - Columns.
 * @param height - Rows.
 * @returns Nothing on it.
 */
export function createCanvas(width: number, height: number): Canvas {
  const size = width * height;
  return {
    width,
    height,
    planes: [new Float32Array(size), new Float32Array(size), new Float32Array(size)],
    likeness: new Float32Array(size),
    filled: new Uint8Array(size),
  };
}
