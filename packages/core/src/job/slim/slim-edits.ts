import type { Drawing } from '../../drawing/drawing.js';
import type { Edit } from '../../drawing/edit-text.js';
import { type Box, boxAround, cornersOf } from '../../drawing/geometry/box.js';
import type { Matrix } from '../../numeric/matrix.js';
import type { PlacedPicture } from '../../drawing/places/placed-picture.js';
import {
  type ClipFrame,
  editPicture,
  editToUse,
  type NewLink,
  type StoredPicture,
  storePictures,
} from '../../drawing/slim/edit-picture.js';
import { freshIds } from '../../drawing/markup.js';
import { fitPicture, type PicturePlan } from '../../drawing/slim/plan-picture.js';
import type { PixelSize, Spans } from '../../drawing/slim/plan-spans.js';
import type { SlimmedPicture, SourcedPicture } from './slim-pictures.js';

/** Every change of a drawing's text, and what its pictures come to. */
export interface DrawingEdits {
  /** To be made. */
  readonly edits: readonly Edit[];
  /** What each element's picture takes in the drawing afterwards, by its number; absent where it stays. */
  readonly sizes: ReadonlyMap<number, number>;
}

const types = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  tiff: 'image/tiff',
  avif: 'image/avif',
  gif: 'image/gif',
} as const;

/** What became of a drawing's pictures. */
export interface PictureFates {
  /** Every `image`. */
  readonly sourced: readonly SourcedPicture[];
  /** Their pictures, as far as they may be changed. */
  readonly slimmed: readonly SlimmedPicture[];
  /** New links, of pictures that lie beside the drawing, by the element's number. */
  readonly links: ReadonlyMap<number, string>;
}

/**
 * Put what became of pictures into edits of the drawing's text.
 *
 * @param drawing - As it was.
 * @param fates - What became of them.
 * @returns The edits.
 */
export async function editPictures(drawing: Drawing, fates: PictureFates): Promise<DrawingEdits> {
  const { sourced, slimmed, links } = fates;
  const gathered = new Gathered(drawing, links);
  const changed = new Set<SourcedPicture>();
  for (const one of slimmed) {
    const { members, isShared } = one;
    for (const member of members) changed.add(member);
    if (isShared) gathered.share(one, await embed(one));
    else for (const member of members) await gathered.change(one, member);
  }
  for (const one of sourced) if (!changed.has(one)) gathered.relink(one);
  return gathered.finish();
}

class Gathered {
  readonly #drawing: Drawing;
  readonly #links: ReadonlyMap<number, string>;
  readonly #edits: Edit[] = [];
  readonly #sizes = new Map<number, number>();
  readonly #stored: StoredPicture[] = [];
  readonly #frames: ClipFrame[] = [];
  readonly #freshId: (stem: string) => string;

  constructor(drawing: Drawing, links: ReadonlyMap<number, string>) {
    this.#drawing = drawing;
    this.#links = links;
    this.#freshId = freshIds(drawing);
  }

  finish(): DrawingEdits {
    const head = storePictures(this.#drawing, this.#stored, this.#frames);
    return { edits: [...head, ...this.#edits], sizes: this.#sizes };
  }

  share({ file, members, smaller }: SlimmedPicture, href: NewLink): void {
    const [first] = members;
    if (first === undefined) return;
    const plan = smaller?.plan ?? whole(file.look);
    const id = this.#freshId('gaugerod-picture');
    const [width, height] = [plan.x.count, plan.y.count];
    const frame = plan.frame === null ? null : inNew(plan, plan.frame);
    this.#stored.push({ id, href, width, height, frame });
    for (const { number, picture } of members) {
      const box = placeOf(picture, file.look, plan);
      if (box === null) continue;
      const { x0, y0, x1, y1 } = box;
      const matrix: Matrix = [(x1 - x0) / width, 0, 0, (y1 - y0) / height, x0, y0];
      this.#edits.push(...editToUse(this.#drawing, picture, id, matrix));
      this.#sizes.set(number, picture === first.picture ? lengthOf(href) : 0);
    }
  }

  async change(slimmed: SlimmedPicture, member: SourcedPicture): Promise<void> {
    const { number, picture } = member;
    const href = await this.#newLink(slimmed, member);
    const plan = slimmed.smaller?.plan ?? null;
    if (href === null && plan === null && picture.again === null) return;
    const { look } = slimmed.file;
    const rect = plan === null ? null : placeOf(picture, look, plan);
    const clip = plan === null ? null : this.#clip(picture, look, plan.frame);
    this.#edits.push(...editPicture(this.#drawing, picture, { href, rect, clip }));
    this.#sizes.set(number, href === null ? picture.href.raw.length : lengthOf(href));
  }

  relink({ number, picture }: SourcedPicture): void {
    const link = this.#links.get(number);
    if (link === undefined) return;
    const href = addressed(link);
    this.#edits.push(...editPicture(this.#drawing, picture, { href, rect: null, clip: null }));
  }

  // Null where the old one stays.
  async #newLink(slimmed: SlimmedPicture, member: SourcedPicture): Promise<NewLink | null> {
    const link = this.#links.get(member.number);
    if (link !== undefined) return link === member.picture.href.value ? null : addressed(link);
    const isNew = slimmed.smaller !== null || member.source.kind === 'linked';
    return isNew ? embed(slimmed) : null;
  }

  #clip(picture: PlacedPicture, size: PixelSize, frame: Box | null): string | null {
    if (frame === null || picture.rect === null) return null;
    const id = this.#freshId('gaugerod-frame');
    this.#frames.push({
      id,
      box: boxAround(cornersOf(fitPicture(picture, picture.rect, size), frame)),
    });
    return id;
  }
}

async function embed({ file, smaller }: SlimmedPicture): Promise<NewLink> {
  const head = `data:${types[smaller?.format ?? file.look.format]};base64,`;
  if (smaller !== null) return { head, base64: smaller.bytes.toString('base64') };
  if (file.base64 !== null) return { head, base64: padded(file.base64) };
  return { head, base64: (await file.load()).toString('base64') };
}

function addressed(link: string): NewLink {
  return { head: link, base64: '' };
}

function lengthOf({ head, base64 }: NewLink): number {
  return head.length + base64.length;
}

// Written strictly, however it was read: whole, with or without what fills up its last four.
function padded(base64: string): string {
  return base64.padEnd(4 * Math.ceil(base64.length / 4), '=');
}

// Where the new pixels lie, in the user units of the place.
function placeOf(picture: PlacedPicture, size: PixelSize, { x, y }: Spans): Box | null {
  if (picture.rect === null) return null;
  const box = {
    x0: x.start,
    y0: y.start,
    x1: x.start + x.count * x.pitch,
    y1: y.start + y.count * y.pitch,
  };
  return boxAround(cornersOf(fitPicture(picture, picture.rect, size), box));
}

function whole({ width, height }: PixelSize): Spans & Pick<PicturePlan, 'frame'> {
  return {
    x: { start: 0, pitch: 1, count: width },
    y: { start: 0, pitch: 1, count: height },
    frame: null,
  };
}

// Old pixels to new ones.
function inNew({ x, y }: Spans, { x0, y0, x1, y1 }: Box): Box {
  return {
    x0: (x0 - x.start) / x.pitch,
    y0: (y0 - y.start) / y.pitch,
    x1: (x1 - x.start) / x.pitch,
    y1: (y1 - y.start) / y.pitch,
  };
}
