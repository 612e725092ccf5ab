import { isWholeBase64, parseDataUri } from '../../../../packages/core/dist/drawing/data-uri.js';
import {
  parseAspect,
  parseViewBox,
} from '../../../../packages/core/dist/drawing/geometry/fit-view.js';
import {
  parseLength,
  toUnits,
} from '../../../../packages/core/dist/drawing/geometry/parse-length.js';
import { parseTransform } from '../../../../packages/core/dist/drawing/geometry/parse-transform.js';
import { parseCssColour } from '../../../../packages/core/dist/colour/css-colour.js';
import { allFinite, promise, type Reader } from '../reader.js';

interface AttributeOptions extends Pick<Reader, 'name' | 'words' | 'tried'> {
  readonly texts: readonly string[];
  readonly read: (text: string) => void;
}

const attributeReader = ({ texts, read, ...rest }: AttributeOptions): Reader => ({
  ...rest,
  seeds: () => texts.map((text) => Buffer.from(text)),
  read: (bytes) => {
    read(bytes.toString());
  },
});

/** A `transform`. */
export const transform = attributeReader({
  name: 'transform',
  tried: 3000,
  words: [
    'matrix(',
    'translate(',
    'scale(',
    'rotate(',
    'skewX(',
    'skewY(',
    ')',
    ',',
    ' ',
    'e',
    'none',
    'deg',
    'px',
  ],
  texts: [
    'translate(2,3) rotate(10 5 5)',
    'matrix(1 0 0 1 2 2) skewX(5)',
    'scale(.5)skewY(-3),rotate(1e1)',
  ],
  read: (text) => {
    allFinite(parseTransform(text), 'a transform');
  },
});

/** Lengths, boxes, colours. */
export const values = attributeReader({
  name: 'svg-values',
  tried: 3000,
  words: [
    'mm',
    'cm',
    'in',
    'pt',
    'pc',
    'px',
    'Q',
    'em',
    '%',
    'rgb(',
    'hsl(',
    'hwb(',
    ')',
    '#',
    '/',
    ',',
    'none',
    'deg',
    'meet',
  ],
  texts: [
    '60mm',
    '50%',
    '1e2px',
    '0 0 60 40',
    '-1,-1,5.5,5',
    '#b5432e',
    'rgb(10%,20,30)',
    'hsl(120deg 50% 50% / 0.5)',
    'firebrick',
    'xMidYMid slice',
  ],
  read: (text) => {
    allFinite(
      [parseLength(text), toUnits(text, 60, 0), parseViewBox(text), parseAspect(text)],
      'a value',
    );
    const colour = parseCssColour(text);
    promise(colour === null || /^#[0-9a-f]{6}$/.test(colour), `a colour, not ${colour ?? ''}`);
  },
});

/** A picture inside an attribute. */
export const dataUri = attributeReader({
  name: 'data-uri',
  tried: 3000,
  words: [
    'data:',
    'DATA:',
    'image/png',
    ';base64,',
    ',',
    '%',
    '%0A',
    '%2B',
    '=',
    '==',
    ' ',
    '\n',
    '&#10;',
    '&amp;',
    'charset=utf-8;',
  ],
  texts: [
    'data:image/png;base64,iVBORw0KGgo=',
    'data:image/jpeg;charset=utf-8;base64,/9j/ 4AA Q==',
    'data:,x%20y',
    'front.png',
  ],
  read: (text) => {
    for (const raw of [text, text.replaceAll('&', '&amp;')]) {
      const attribute = {
        raw,
        value: text,
        name: 'href',
        qualified: 'href',
        start: 0,
        end: 0,
        valueStart: 0,
        valueEnd: 0,
      };
      const base64 = parseDataUri(attribute as never)?.base64 ?? '';
      if (!isWholeBase64(base64)) continue;
      // Node's decoder stands for any other: RFC 4648, 4.
      const again = Buffer.from(base64, 'base64').toString('base64').replace(/=+$/, '');
      promise(
        again.length === base64.replace(/=+$/, '').length,
        'whole base64 is as long as its bytes',
      );
    }
  },
});
