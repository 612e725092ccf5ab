import { createHash } from 'node:crypto';
import { showPath } from '../../errors/show-path.js';
import { TextureError } from '../../errors/texture-error.js';
import { isWholeBase64, parseDataUri } from '../../drawing/data-uri.js';
import type { PlacedPicture } from '../../drawing/places/placed-picture.js';
import { resolveLink } from '../../drawing/xml-base.js';
import { decodeBase64 } from '../open/decode-base64.js';
import type { LinkFinder } from '../../read/find-linked.js';
import { type LookedAtPicture, lookAtPicture } from '../../read/look-at-picture.js';
import { identifyFormat } from '../../read/identify-format.js';
import { readBytes } from '../../read/read-bytes.js';

/** A picture's own file. */
export interface PictureFile {
  /** SHA-256 of its bytes. */
  readonly sum: string;
  /** How many. */
  readonly size: number;
  /** What its head says. */
  readonly look: LookedAtPicture;
  /** Its bytes, once more: they are not kept. */
  readonly load: () => Promise<Buffer>;
  /** The same in base64, as it first stands in the drawing, blanks left out; null where it does not. */
  readonly base64: string | null;
}

/** Where the picture of an `image` lies. */
export type PictureSource =
  | {
      /** In the drawing. */
      readonly kind: 'embedded';
      /** Its file. */
      readonly file: PictureFile;
    }
  | {
      /** In a file that may be read. */
      readonly kind: 'linked';
      /** Real path of it. */
      readonly path: string;
      /** Whether it lies where the link says. */
      readonly asLinked: boolean;
      /** Its file, or null where it is no picture that is read. */
      readonly file: PictureFile | null;
    }
  | {
      /** Nowhere that may be read. */
      readonly kind: 'missing';
      /** The link. */
      readonly href: string;
      /** To follow the link: `does not exist`. */
      readonly why: string;
      /** Files that may be meant. */
      readonly likely: readonly string[];
    }
  | {
      /** In the drawing, and not to be understood. */
      readonly kind: 'broken';
      /** To follow "is left as it is: it". */
      readonly why: string;
    };

/**
 * Find the picture of an `image`, and look at its head.
 *
 * @param picture - Placed.
 * @param finder - Of links.
 * @param known - Files looked at so far, by their sums and by their base64; added to.
 * @returns Where it lies.
 */
export async function openPicture(
  picture: PlacedPicture,
  finder: LinkFinder,
  known: Map<string, PictureFile>,
): Promise<PictureSource> {
  const uri = parseDataUri(picture.href);
  if (uri !== null) return openEmbedded(uri, known);
  const href = resolveLink(picture.href.value, picture.base);
  const found = await finder.follow(href);
  if (found.kind === 'missing') {
    const { why, likely } = found;
    return { kind: 'missing', href, why, likely };
  }
  const { path, asLinked } = found;
  const load = async (): Promise<Buffer> => readBytes(path, 'photo');
  return { kind: 'linked', path, asLinked, file: await tryLook(load, known) };
}

async function tryLook(
  load: () => Promise<Buffer>,
  known: Map<string, PictureFile>,
): Promise<PictureFile | null> {
  const file = await look(load, known);
  return typeof file === 'string' ? null : file;
}

// Whole fours of base64.
const headLength = 4096;

async function openEmbedded(
  uri: NonNullable<ReturnType<typeof parseDataUri>>,
  known: Map<string, PictureFile>,
): Promise<PictureSource> {
  const { base64, mediaType } = uri;
  if (mediaType === 'image/svg+xml') return { kind: 'broken', why: 'is a drawing itself' };
  if (base64 === null) return { kind: 'broken', why: 'is not written in base64' };
  const before = known.get(base64);
  if (before !== undefined) return { kind: 'embedded', file: before };
  if (!isWholeBase64(base64)) return { kind: 'broken', why: 'is no whole base64' };
  const load = (): Promise<Buffer> => {
    // What is no picture is told by its head, and not decoded whole.
    identifyFormat('it', decodeBase64(base64.slice(0, headLength)));
    return Promise.resolve(decodeBase64(base64));
  };
  const file = await look(load, known, base64);
  if (typeof file === 'string') return { kind: 'broken', why: file };
  known.set(base64, file);
  return { kind: 'embedded', file };
}

async function look(
  load: () => Promise<Buffer>,
  known: Map<string, PictureFile>,
  base64: string | null = null,
): Promise<PictureFile | string> {
  try {
    const bytes = await load();
    const sum = createHash('sha256').update(bytes).digest('hex');
    const before = known.get(sum);
    if (before !== undefined) return before;
    const head = await lookAtPicture('it', bytes);
    const file = { sum, size: bytes.length, look: head, load, base64 };
    known.set(sum, file);
    return file;
  } catch (cause) {
    if (!(cause instanceof TextureError)) throw cause;
    return showPath(cause.message.replace(/^it /, ''));
  }
}
