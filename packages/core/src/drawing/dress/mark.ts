/** The attribute by which our own work is known again. */
export const mark = 'data-gaugerod';

/** What it says of an element that is all ours. */
export const ours = { dressing: 'dressing', pictures: 'pictures', copies: 'copies' } as const;

/** What it says of an outline whose fill was made clear, and how: what was added to its style. */
export const clear = {
  alone: { mark: 'clear', added: 'fill-opacity:0' },
  bare: { mark: 'clear-after', added: 'fill-opacity:0' },
  joined: { mark: 'clear-joined', added: ';fill-opacity:0' },
} as const;

/** The attribute that keeps what a `use` pointed to. */
export const keptLink = 'data-gaugerod-href';
