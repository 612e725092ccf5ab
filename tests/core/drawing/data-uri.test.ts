import { expect, test } from 'vitest';
import {
  base64Length,
  isWholeBase64,
  parseDataUri,
} from '../../../packages/core/src/drawing/data-uri.js';
import type { DrawingAttribute } from '../../../packages/core/src/drawing/drawing.js';

const holding = (raw: string): DrawingAttribute => ({
  qualified: 'href',
  name: 'href',
  namespace: null,
  raw,
  value: raw.replaceAll('&#10;', '\n'),
  start: 0,
  valueStart: 6,
  valueEnd: 6 + raw.length,
  end: 7 + raw.length,
});

// RFC 4648, 4: four characters for every three bytes begun.
test.each([
  [0, 0],
  [1, 4],
  [2, 4],
  [3, 4],
  [100, 136],
  [371_000, 494_668],
  [1_048_576, 1_398_104],
])('%d bytes take %d characters', (bytes, characters) => {
  expect(base64Length(bytes)).toBe(characters);
  expect(Buffer.alloc(bytes).toString('base64')).toHaveLength(characters);
});

// RFC 2397, and HTML's and XML's leave to break lines: blanks count for nothing, nor does case.
test.each([
  'data:image/png;base64,iVBORw0K',
  ' DATA:IMAGE/PNG;BASE64,iVBORw0K',
  'data:image/png;charset=x;base64,iVBO\n      Rw0K',
  'data:image/png;base64,iVBO&#10;Rw0K',
  'data:image/png;base64,iVBORw%30K',
])('%j is a picture', (raw) => {
  const uri = parseDataUri(holding(raw));
  expect([uri?.mediaType, uri?.base64]).toEqual(['image/png', 'iVBORw0K']);
  expect(isWholeBase64('iVBORw0K')).toBe(true);
});

test.each([
  'data:image/png;base64,',
  'data:image/png;base64,@@@@',
  'data:image/png;base64,iVBOR',
  'data:image/png;base64,iV=ORw0K',
  'data:image/png;base64,iVB-Rw0K',
  'data:image/png;base64,iVBOR===',
])('%j is no whole base64', (raw) => {
  expect(isWholeBase64(parseDataUri(holding(raw))?.base64 ?? '')).toBe(false);
});

test('what is written another way is told apart from a link', () => {
  expect(parseDataUri(holding('data:text/plain,hello'))?.base64).toBeNull();
  expect(parseDataUri(holding('data:image/png;base64'))?.base64).toBeNull();
  expect(parseDataUri(holding('wall.png'))).toBeNull();
});

test('millions of characters are no trouble', () => {
  const text = 'A'.repeat(30_000_000);
  expect(isWholeBase64(parseDataUri(holding(`data:image/png;base64,${text}`))?.base64 ?? '')).toBe(
    true,
  );
});
