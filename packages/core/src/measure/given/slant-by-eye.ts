/**
 * How far off square a photo may be that somebody took for square by eye, in degrees either way
 * (common practice, no source).
 */
export const slantByEye = 5;
