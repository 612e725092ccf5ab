import type { WallOptions } from '@gaugerod/fixtures';

// Stretcher bond in UK metric brick, 75 mm a course (BS EN 771-1 work size 65 mm and a 10 mm
// joint) on 25 px: 3 mm a pixel, exactly.
export const plainBrick = {
  coursePx: 25,
  width: 360,
  height: 260,
  seed: 7,
} as const satisfies WallOptions;
