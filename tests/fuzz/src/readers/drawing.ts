import { attributesOf } from '../../../../packages/core/dist/drawing/attributes-of.js';
import { BadDrawing } from '../../../../packages/core/dist/drawing/bad-drawing.js';
import { decodeDrawing } from '../../../../packages/core/dist/drawing/decode-drawing.js';
import { findOutlines } from '../../../../packages/core/dist/drawing/dress/find-outlines.js';
import { undress } from '../../../../packages/core/dist/drawing/dress/undress.js';
import { editText } from '../../../../packages/core/dist/drawing/edit-text.js';
import { listLinks } from '../../../../packages/core/dist/drawing/list-links.js';
import { takeOutline } from '../../../../packages/core/dist/drawing/outline/take-outline.js';
import { listMarks } from '../../../../packages/core/dist/drawing/paint/list-marks.js';
import { findPlaces } from '../../../../packages/core/dist/drawing/places/find-places.js';
import { readDrawing } from '../../../../packages/core/dist/drawing/read-drawing.js';
import { drawings, drawingWords, pathWords } from '../drawing-seeds.js';
import { allFinite, promise, type Reader } from '../reader.js';

type Drawing = ReturnType<typeof readDrawing>;

// Each look at a drawing may refuse what another can do without.
const looks: readonly ((drawing: Drawing) => void)[] = [
  (drawing) => {
    const { text, elements } = drawing;
    for (const element of elements) {
      const { start, contentStart, contentEnd, end } = element;
      promise(
        start < contentStart && contentStart <= contentEnd && contentEnd <= end,
        'places in their order',
      );
      promise(text[start] === '<' && text[end - 1] === '>', 'an element from bracket to bracket');
      for (const { raw, valueStart, valueEnd } of attributesOf(drawing, element)) {
        promise(text.slice(valueStart, valueEnd) === raw, 'an attribute where it stands');
      }
    }
  },
  (drawing) => {
    for (const { box, matrix, left } of findOutlines(drawing).outlines) {
      if (left === null) allFinite([box, matrix], 'an outline');
    }
  },
  (drawing) => {
    readDrawing(editText(drawing.text, undress(drawing)).join(''));
  },
  (drawing) => {
    const outline = takeOutline(drawing, { tolerance: 0.01 });
    if (outline.ok) allFinite(outline.value.loops, 'an outline’s loops');
  },
  (drawing) => {
    for (const mark of listMarks(drawing).marks) {
      allFinite(mark.matrix, 'a mark’s place');
      if (mark.kind === 'shape') allFinite([mark.line, mark.fill], 'a mark’s ink');
    }
  },
  findPlaces,
  listLinks,
];

/** A drawing, all that is looked for in it. */
export const drawing: Reader = {
  name: 'drawing',
  tried: 200,
  refusals: [BadDrawing],
  words: [...drawingWords, ...pathWords],
  seeds: () => drawings.map((text) => Buffer.from(text)),
  read: (bytes) => {
    const read = readDrawing(decodeDrawing(bytes).text);
    for (const look of looks) {
      try {
        look(read);
      } catch (error) {
        if (!(error instanceof BadDrawing)) throw error;
      }
    }
  },
};
