import type { Matrix } from '../../numeric/matrix.js';
import type { PerAxis } from '../../surface/measurement.js';
import type { Size } from '../../units/parse-size.js';
import { type DotPicture, openDotPicture } from './dot-picture.js';

// Of all that are open: a page of A4 full of pictures at 600 dots to the inch.
const mostHeld = 120e6;
// So many sizes of one picture are held each as it is shown; more share the next one that is twice another.
const mostSizes = 4;

/** Pictures that drawings show, opened once for all the pages that show them. */
export class OpenedPictures {
  readonly #pictures = new Map<Uint8Array, Map<string, DotPicture>>();

  /**
   * Open a picture, as fine as a place shows it: or a small copy would be cut out of what a large one needs.
   *
   * @param bytes - A PNG or JPEG in sRGB.
   * @param pixels - Its columns and rows.
   * @param place - From its pixels to dots of the page.
   * @returns The same again where it is open.
   */
  async open(bytes: Uint8Array, pixels: Size<number>, place: Matrix): Promise<DotPicture> {
    const sizes = this.#pictures.get(bytes) ?? new Map<string, DotPicture>();
    this.#pictures.set(bytes, sizes);
    const [a, b, c, d] = place;
    const exact = { x: Math.hypot(a, b), y: Math.hypot(c, d) };
    const isNew = !sizes.has(keyOf(exact)) && sizes.size >= mostSizes;
    const finest = isNew ? { x: doubled(exact.x), y: doubled(exact.y) } : exact;
    const open =
      sizes.get(keyOf(finest)) ??
      (await openDotPicture(bytes, pixels, { finest, room: this.#room() }));
    sizes.set(keyOf(finest), open);
    return open;
  }

  /**
   * Close all others.
   *
   * @param needed - What later pages show.
   */
  keep(needed: ReadonlySet<Uint8Array>): void {
    for (const bytes of this.#pictures.keys()) if (!needed.has(bytes)) this.#pictures.delete(bytes);
  }

  #room(): number {
    const open = [...this.#pictures.values()].flatMap((sizes) => [...sizes.values()]);
    return mostHeld - open.reduce((sum, { held }) => sum + held, 0);
  }
}

function keyOf({ x, y }: PerAxis<number>): string {
  return `${x.toPrecision(4)} ${y.toPrecision(4)}`;
}

function doubled(fineness: number): number {
  return Math.min(1, 2 ** Math.ceil(Math.log2(fineness)));
}
