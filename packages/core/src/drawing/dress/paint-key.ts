import { parseCssColour } from '../../colour/css-colour.js';
import { outOfRange } from '../../errors/out-of-range.js';

/** What says which outlines are meant. */
export interface PaintKey {
  /** As the user wrote it. */
  readonly text: string;
  /** Fill colour, `#rrggbb`, or null where none can be meant. */
  readonly colour: string | null;
  /** Of an outline, or of a group around it, or null where none can be meant. */
  readonly id: string | null;
  /** Likewise. */
  readonly className: string | null;
}

const nothing = { colour: null, id: null, className: null };

/**
 * Read what says which outlines are meant.
 *
 * @param text - `#b5432e`, `#gable` or `.brick`; spelled out `fill:firebrick`, `id:gable`, `class:brick`.
 * @param name - What it is for, in the error.
 * @returns What is meant; `#b5432e` may be a colour or an id.
 * @throws RangeError when it is none of these.
 */
export function parsePaintKey(text: string, name: string): PaintKey {
  const key = keyOf(text);
  if (key !== null) return { ...nothing, ...key, text };
  throw outOfRange('a fill colour such as #b5432e, an #id or a .class', name, text);
}

function keyOf(text: string): Partial<PaintKey> | null {
  const [, kind = '', rest = ''] = /^(fill:|id:|class:|#|\.)(\S+)$/.exec(text) ?? [];
  switch (kind) {
    case 'fill:': {
      const colour = parseCssColour(rest);
      return colour === null ? null : { colour };
    }
    case 'id:':
      return { id: rest };
    case '.':
    case 'class:':
      return { className: rest };
    case '#':
      return { id: rest, colour: /^([0-9a-f]{3}){1,2}$/i.test(rest) ? parseCssColour(text) : null };
    default:
      return null;
  }
}
