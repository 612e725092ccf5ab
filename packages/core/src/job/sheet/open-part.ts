import type { Warning } from '../../errors/warning.js';
import type { Size } from '../../units/parse-size.js';
import type { PageDrawing, PagePicture } from '../../write/page/page-picture.js';

/** A part that is to be laid on a page. */
export interface OpenPart {
  /** As given. */
  readonly path: string;
  /** What the part measures, mm. */
  readonly size: Size<number>;
  /** What it shows. */
  readonly shown: PagePicture | PageDrawing;
  /** Real paths of further files that it shows, which must not be written over. */
  readonly linked: readonly string[];
  /** Whether colours of it were made for a printer. */
  readonly isPrinted: boolean;
  /** What the user should know of it. */
  readonly warnings: readonly Warning[];
}
