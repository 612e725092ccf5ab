// The package's own types cannot be found through its `exports`.
declare module 'svg-pathdata' {
  /** One step of a path, whatever of it there is; angles in degrees. */
  export interface PathCommand {
    /** Which kind, by a number of the class below. */
    readonly type: number;
    /** Where it ends, to the right. */
    readonly x?: number;
    /** Where it ends, down. */
    readonly y?: number;
    /** First point that bends it, to the right. */
    readonly x1?: number;
    /** First point that bends it, down. */
    readonly y1?: number;
    /** Second point that bends it, to the right. */
    readonly x2?: number;
    /** Second point that bends it, down. */
    readonly y2?: number;
    /** Of an arc, half its width. */
    readonly rX?: number;
    /** Of an arc, half its height. */
    readonly rY?: number;
    /** By how much an arc is turned. */
    readonly xRot?: number;
    /** Centre of an arc, to the right. */
    readonly cX?: number;
    /** Centre of an arc, down. */
    readonly cY?: number;
    /** Where an arc begins. */
    readonly phi1?: number;
    /** Where an arc ends. */
    readonly phi2?: number;
  }

  /** A path's data, parsed. */
  export class SVGPathData {
    /** Back to where it began. */
    static readonly CLOSE_PATH: number;
    /** Somewhere else, without a line. */
    static readonly MOVE_TO: number;
    /** Straight on. */
    static readonly LINE_TO: number;
    /** A curve of two points that bend it. */
    static readonly CURVE_TO: number;
    /** A curve of one point that bends it. */
    static readonly QUAD_TO: number;
    /** Along an ellipse. */
    static readonly ARC: number;
    /** Step by step. */
    readonly commands: readonly PathCommand[];
    /** Throws where the data breaks its grammar. */
    constructor(data: string);
    /** Everything counted from the page. */
    toAbs(): this;
    /** Level and upright lines as lines; closing stays. */
    normalizeHVZ(closing: boolean): this;
    /** Curves that continue others with points of their own. */
    normalizeST(): this;
    /** Arcs with their centre, radii that reach, and angles. */
    annotateArcs(): this;
    /** Infinite, inside out, for a path of nothing. */
    getBounds(): {
      readonly minX: number;
      readonly minY: number;
      readonly maxX: number;
      readonly maxY: number;
    };
  }
}
