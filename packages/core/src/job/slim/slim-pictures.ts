import type { PlacedPicture, Placement } from '../../drawing/places/placed-picture.js';
import {
  fillsRect,
  planPicture,
  type Showing,
  showingOf,
} from '../../drawing/slim/plan-picture.js';
import { TextureError } from '../../errors/texture-error.js';
import type { SmallerPicture } from './slim-judge.js';
import { slimWithin } from './slim-pixels.js';
import type { PictureFile, PictureSource } from './slim-source.js';

/** An `image`, and where its picture lies. */
export interface SourcedPicture {
  /** Its place in the report: 1 for the first. */
  readonly number: number;
  /** Placed. */
  readonly picture: PlacedPicture;
  /** Where its picture lies. */
  readonly source: PictureSource;
}

/** One picture, all `image` elements that show it, and what became of it. */
export interface SlimmedPicture {
  /** Its file as it was. */
  readonly file: PictureFile;
  /** In the order in which they stand. */
  readonly members: readonly SourcedPicture[];
  /** Whether it is to be stored once for all of them. */
  readonly isShared: boolean;
  /** Why each of several elements keeps a copy, to follow "because"; null where none does. */
  readonly apart: string | null;
  /** Its new file and what that shows, or null where it stays. */
  readonly smaller: SmallerPicture | null;
  /** How much of it shows, or null where that cannot be told. */
  readonly showing: Showing | null;
  /** Whether smaller files of it were made and held against it. */
  readonly isTried: boolean;
  /** Why its pixels were left, to follow "because"; null where nothing stood against a change. */
  readonly left: string | null;
}

/** What pictures are to become. */
export interface SlimWish {
  /** Dots per inch of the print. */
  readonly dpi: number;
  /** Whether what never shows is kept. */
  readonly keepClipped: boolean;
  /** Where pictures go: as they are, into the drawing, or beside it. */
  readonly mode: 'keep' | 'embed' | 'link';
}

/**
 * Group the elements that show one picture, and make of each what a print needs.
 *
 * @param placement - Of the drawing.
 * @param sourced - Its pictures.
 * @param wish - What they are to become.
 * @returns One for each picture that may be changed.
 */
export async function slimPictures(
  placement: Placement,
  sourced: readonly SourcedPicture[],
  wish: SlimWish,
): Promise<SlimmedPicture[]> {
  const groups = new Map<string, SourcedPicture[]>();
  const files = new Map<string, PictureFile>();
  for (const one of sourced) {
    const { source, picture } = one;
    const file = 'file' in source ? source.file : null;
    if (file === null || (source.kind === 'linked' && staysLinked(file, wish))) continue;
    // What is not understood stands alone.
    const key = picture.doubt === null ? file.sum : `${file.sum} ${one.number}`;
    files.set(key, file);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const slimmed: SlimmedPicture[] = [];
  for (const [key, members] of groups) {
    const file = files.get(key);
    if (file !== undefined) slimmed.push(await slimOne(placement, { file, members }, wish));
  }
  return slimmed;
}

// Inside a drawing only PNG and JPEG show everywhere.
function staysLinked({ look }: PictureFile, { mode }: SlimWish): boolean {
  if (mode === 'embed') return look.format !== 'png' && look.format !== 'jpeg';
  return mode === 'keep';
}

async function slimOne(
  { steady }: Placement,
  group: Pick<SlimmedPicture, 'file' | 'members'>,
  wish: SlimWish,
): Promise<SlimmedPicture> {
  const { file, members } = group;
  const pictures = members.map(({ picture }) => picture);
  const mayShare = members.length > 1 && wish.mode !== 'link';
  const apart = mayShare ? whyApart(pictures, file, steady) : null;
  const isShared = mayShare && apart === null;
  const left = whyLeft(pictures, file);
  const showing = pictures.some(({ doubt }) => doubt !== null)
    ? null
    : showingOf(pictures, file.look);
  const kept = { ...group, isShared, apart, showing };
  if (left !== null) return { ...kept, smaller: null, isTried: false, left };
  const mayFrame = steady && (isShared || pictures.every(({ isCovered }) => !isCovered));
  const plans = planPicture(pictures, file.look, { ...wish, mayFrame });
  if (plans === null) return { ...kept, smaller: null, isTried: false, left: null };
  try {
    return { ...kept, ...(await slimWithin(await file.load(), file.look, plans)), left: null };
  } catch (cause) {
    if (!(cause instanceof TextureError)) throw cause;
    return { ...kept, smaller: null, isTried: false, left: 'it is damaged' };
  }
}

// Each must lie in the drawing as a rectangle that is known, and its box must stay where it matters.
function whyApart(
  pictures: readonly PlacedPicture[],
  { look }: PictureFile,
  steady: boolean,
): string | null {
  if (!steady) return 'rules of a style sheet might not hold for it any more';
  for (const { rect, doubt, aspect } of pictures) {
    if (rect === null || doubt !== null) return 'where it lies is not known';
    if (aspect.fit === 'slice') return 'it is cut off by its own frame (slice)';
  }
  const isMeasured = pictures.some(
    (one) => one.boxMatters && one.rect !== null && !fillsRect(one, one.rect, look),
  );
  return isMeasured ? 'something is measured by its frame, which it does not fill' : null;
}

function whyLeft(pictures: readonly PlacedPicture[], { look }: PictureFile): string | null {
  const doubt = pictures.find((picture) => picture.doubt !== null)?.doubt;
  if (doubt !== undefined && doubt !== null) return `of ${doubt}`;
  if (look.left !== null) return `it ${look.left}`;
  const inside = pictures.find((picture) => picture.inside !== null)?.inside;
  if (inside !== undefined && inside !== null) return `it is part of a ${inside}`;
  if (pictures.some(({ squares }) => squares)) return 'its pixels are to be seen as squares';
  if (pictures.some(({ places }) => places.length === 0)) return 'nothing shows it';
  return null;
}
