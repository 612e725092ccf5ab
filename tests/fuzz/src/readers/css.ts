import { BadDrawing } from '../../../../packages/core/dist/drawing/bad-drawing.js';
import { findOutlines } from '../../../../packages/core/dist/drawing/dress/find-outlines.js';
import { listMarks } from '../../../../packages/core/dist/drawing/paint/list-marks.js';
import { readDrawing } from '../../../../packages/core/dist/drawing/read-drawing.js';
import { readSheets } from '../../../../packages/core/dist/drawing/style/read-sheets.js';
import { allFinite, type Reader } from '../reader.js';

const sheets = [
  '.shed{fill:#b5432e;stroke:#000;stroke-width:.2} rect.shed,#gable.a{fill:none}',
  '*{visibility:visible} path{fill:red;fill-rule:evenodd} .b{stroke:currentColor;stroke-linejoin:round}',
  'path,#gable{fill:rgb(10%,20,30)!important;stroke-dasharray:1 2 3}',
];

const escape = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('"', '&quot;')
    .replace(/[\0-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]|\p{Surrogate}/gu, '');

/** A style block, and the same in a `style`. */
export const css: Reader = {
  name: 'css',
  tried: 120,
  refusals: [BadDrawing],
  words: [
    ...[
      '{',
      '}',
      ';',
      ':',
      ',',
      '>',
      '+',
      '~',
      '*',
      '.',
      '#',
      '/*',
      '*/',
      '<!--',
      '-->',
      '!important',
      '\\',
      '"',
      "'",
    ],
    ...[
      '@media print{',
      '@import url(x);',
      '@font-face{',
      '@supports (a:b){',
      ':not(',
      ':is(',
      '::before',
      '[a="b"]',
      'var(--a)',
      '--a:',
    ],
    ...[
      'fill:',
      'stroke:',
      'transform:',
      'clip-path:',
      'display:none',
      'stroke-width:',
      'opacity:',
      'mask:',
      'filter:',
      'd:path("',
    ],
    ...['url(', 'calc(', 'inherit', 'currentColor', 'none', '1e9', '\\0', '\\110000 '],
  ],
  seeds: () => sheets.map((text) => Buffer.from(text)),
  read: (bytes) => {
    const text = escape(bytes.toString());
    const drawing = readDrawing(
      `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40"><style>${text}</style>` +
        `<path id="gable" class="shed a b" d="M2 28V8l12-6 12 6v20z" style="${text}"/><rect class="shed" width="5" height="4"/></svg>`,
    );
    readSheets(drawing);
    for (const { matrix, box, left } of findOutlines(drawing).outlines) {
      if (left === null) allFinite([matrix, box], 'an outline');
    }
    for (const mark of listMarks(drawing).marks) allFinite({ ...mark, clips: null }, 'a mark');
  },
};
