/** What may be lifted, or lowered, of what files from outside may ask for. */
export interface LimitOptions {
  /** Pixels that a picture may hold, 1 to 1000 million; 100 million unless told, 268 million of what is laid on pages as it is. */
  readonly mostPixels?: number;
  /** Bytes that a file may hold, whatever it is, 1 to 2000 million; unless told by what it is: 512 million of a picture. */
  readonly mostBytes?: number;
  /**
   * Seconds that a picture's decoding may take, up to 3600; 10 unless told, 30 of what is laid on pages as it is.
   */
  readonly mostSeconds?: number;
  /** Elements that a drawing may hold, 1 to 2 million; 500,000 unless told. */
  readonly mostElements?: number;
  /** How deep elements of a drawing may lie in one another, 1 to 1000; 250 unless told, where renderers stop at 256. */
  readonly mostDepth?: number;
  /** Files that a drawing may lead to, 1 to 100,000; 5000 unless told. */
  readonly mostLinks?: number;
}

/** One of them, as failures name it to programs. */
export type LimitName = 'pixels' | 'bytes' | 'seconds' | 'elements' | 'depth' | 'links';

/** What files are read as. */
export type InputKind = 'photo' | 'print' | 'drawing' | 'yaml' | 'sidecar' | 'printer' | 'made';

/** What a file may ask for: what may be lifted, and the pixels of a picture's longer side, which nothing lifts. */
export type Limits = Readonly<Record<LimitName | 'side', number>>;

const none: Limits = { pixels: 0, side: 0, bytes: 0, seconds: 0, elements: 0, depth: 0, links: 0 };

/**
 * What files from outside may ask for unless someone says otherwise, each asked before anything is
 * allocated for it. Entities are not among them: none but XML's own five is ever expanded, and nothing
 * is fetched.
 */
const usual: Readonly<Record<InputKind, Limits>> = {
  // A decoder holds some rows at once: of a picture that is all side they are more than all of another.
  photo: { ...none, pixels: 100e6, side: 100_000, bytes: 512e6, seconds: 10 },
  // Goes on paper as it is, an A2 sheet at 600 dpi among them, and is never held in light.
  // 10 m at 600 dpi are 236,220 dots.
  print: { ...none, pixels: 268e6, side: 300_000, bytes: 512e6, seconds: 30 },
  // In memory its text stands beside its bytes for a moment. Renderers stop at a depth of 256 (libxml2's own).
  drawing: { ...none, bytes: 150e6, elements: 500_000, depth: 250, links: 5000 },
  // Jobs, defaults and references: depth is that of brackets, and far past any written by hand.
  yaml: { ...none, bytes: 2e6, depth: 50 },
  sidecar: { ...none, bytes: 1e6, depth: 8 },
  printer: { ...none, bytes: 4e6 },
  // What was made here, to be shown.
  made: { ...none, bytes: 1e9 },
};

/** From where to where what is given for one may lie: past it memory, or what JavaScript holds in one piece, ends. */
export const limitRanges: Readonly<
  Record<keyof LimitOptions, { readonly least: number; readonly most: number }>
> = {
  mostPixels: { least: 1, most: 1e9 },
  mostBytes: { least: 1, most: 2e9 },
  mostSeconds: { least: 0.1, most: 3600 },
  mostElements: { least: 1, most: 2e6 },
  mostDepth: { least: 1, most: 1000 },
  mostLinks: { least: 1, most: 100_000 },
};

/** All that may be given, in the order in which it is told. */
export const limitOptions = Object.keys(limitRanges) as readonly (keyof LimitOptions)[];

/**
 * Bounds that nothing lifts: no honest file comes near them, and what does is refused, or left alone.
 */
export const bounds = {
  /** Boxes in the head of an AVIF. */
  boxes: 20_000,
  /** Chunks before the pixels of a PNG; honest files have about ten. */
  chunks: 20_000,
  /** Bytes of an EXIF block: what one segment of a JPEG holds. */
  exif: 65_536,
  /** Tags of a colour profile that are looked through. */
  tags: 100,
  /** Aliases of a YAML file that are followed. */
  aliases: 100,
  /** Files of a folder among which a lost picture is looked for. */
  listed: 20_000,
  /** How deep its folders are gone into for that. */
  folders: 8,
} as const;

// A text in one piece: JavaScript's longest has 536,870,888 letters.
const longestText = 500e6;

/**
 * Tell how many bytes of a file can be allowed at all.
 *
 * @param kind - What it is read as.
 * @returns They.
 */
export function mostOf(kind: InputKind): number {
  const isText = usual[kind].pixels === 0 && kind !== 'made';
  return isText ? longestText : limitRanges.mostBytes.most;
}

/**
 * Tell what a file may ask for.
 *
 * @param kind - What it is read as.
 * @param given - What someone says of it.
 * @returns All of it; 0 for what no such file has.
 */
export function limitsFor(kind: InputKind, given: LimitOptions): Limits {
  const { pixels, side, bytes, seconds, elements, depth, links } = usual[kind];
  const isPicture = pixels > 0;
  const { mostBytes = bytes } = given;
  return {
    pixels: isPicture ? (given.mostPixels ?? pixels) : 0,
    side,
    bytes: Math.min(mostBytes, mostOf(kind)),
    seconds: isPicture ? (given.mostSeconds ?? seconds) : 0,
    elements: kind === 'drawing' ? (given.mostElements ?? elements) : 0,
    // Of other files their own form is no deeper, and what is deeper is none of them.
    depth: kind === 'drawing' ? (given.mostDepth ?? depth) : depth,
    links: kind === 'drawing' ? (given.mostLinks ?? links) : 0,
  };
}
