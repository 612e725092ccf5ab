/** A colour that is sent to a printer: red, green and blue in sRGB, 0 to 255. */
export type SentColour = readonly [red: number, green: number, blue: number];

const coarse = [0, 64, 128, 191, 255];
const greys = [
  6, 13, 19, 26, 32, 38, 45, 51, 77, 90, 102, 115, 140, 153, 166, 179, 204, 217, 230, 236, 242, 248,
];
// Seen in several places of the page, to tell how even its light and how steady the printer is.
const again = [0, 0, 64, 64, 64, 128, 128, 128, 128, 128, 191, 191, 191];
const ramp = [32, 96, 160, 223, 240];
// Which channels a full ink of a ramp takes away: cyan, magenta, yellow, red, green, blue.
const inks: readonly (readonly [boolean, boolean, boolean])[] = [
  [true, false, false],
  [false, true, false],
  [false, false, true],
  [false, true, true],
  [true, false, true],
  [true, true, false],
];
const lightest = [50, 90, 130, 170, 210];
// What walls, roofs and steel are made of: brick, clay, stone, rust, lichen, slate and such.
const tints: readonly SentColour[] = [
  [1, 0.8, 0.65],
  [1, 0.6, 0.5],
  [1, 0.7, 0.55],
  [1, 0.87, 0.7],
  [1, 0.75, 0.4],
  [1, 0.95, 0.82],
  [0.9, 1, 0.75],
  [0.88, 0.95, 1],
  [0.8, 0.88, 1],
  [0.95, 0.85, 0.9],
];

/** Which list of patches a strip shows: a whole number, counted up whenever patches or places change. */
export const stripVersion = 1;

/** Columns of patches. */
export const stripColumns = 16;
/** Rows of patches. */
export const stripRows = 15;

// Neighbours in the list lie far apart on paper, so that light that falls off is not taken for a ramp. It
// has no factor in common with the number of patches, so that every place is taken once.
const stride = 97;

function listColours(): readonly SentColour[] {
  const grey = (level: number): SentColour => [level, level, level];
  return [
    ...coarse.flatMap((r) => coarse.flatMap((g) => coarse.map((b): SentColour => [r, g, b]))),
    ...greys.map(grey),
    ...again.map(grey),
    ...inks.flatMap(([c, m, y]) =>
      ramp.map((level): SentColour => [c ? level : 255, m ? level : 255, y ? level : 255]),
    ),
    ...lightest.flatMap((level) =>
      tints.map(([r, g, b]): SentColour => [
        Math.round(level * r),
        Math.round(level * g),
        Math.round(level * b),
      ]),
    ),
  ];
}

/** Patches of the test strip, row by row from the top left: `stripColumns * stripRows` of them. */
export const stripPatches: readonly SentColour[] = placeColours(listColours());

function placeColours(colours: readonly SentColour[]): readonly SentColour[] {
  const placed: SentColour[] = [];
  colours.forEach((colour, i) => {
    placed[(i * stride) % colours.length] = colour;
  });
  return placed;
}
