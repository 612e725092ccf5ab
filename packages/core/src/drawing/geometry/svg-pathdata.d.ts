// The package's own types cannot be found through its `exports`.
declare module 'svg-pathdata' {
  /** A path's data, parsed. */
  export class SVGPathData {
    /** Throws where the data breaks its grammar. */
    constructor(data: string);
    /** Infinite, inside out, for a path of nothing. */
    getBounds(): {
      readonly minX: number;
      readonly minY: number;
      readonly maxX: number;
      readonly maxY: number;
    };
  }
}
