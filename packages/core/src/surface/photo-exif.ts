import type { Size } from '../units/parse-size.js';

/** What a camera noted that a measurement may use; nothing of where, when or by whom. */
export interface PhotoExif {
  /** Focal length in mm, or null. */
  readonly focalLengthMm: number | null;
  /** Focal length of a 35 mm camera that sees as much, or null. */
  readonly focalLength35mm: number | null;
  /** How much of the sensor's middle was enlarged to the whole picture; 1 where none was. */
  readonly digitalZoom: number;
  /** Pixels to a millimetre of the sensor, along its rows, or null. */
  readonly sensorPxPerMm: number | null;
  /** Columns and rows as the camera stored them, not turned upright, or null. */
  readonly stored: Size<number> | null;
}
