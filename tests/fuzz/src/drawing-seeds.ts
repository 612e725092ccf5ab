import { pictureSeeds } from './picture-seeds.js';

const [png] = await pictureSeeds.png();
const [jpeg] = await pictureSeeds.jpeg();
const uri = (kind: string, bytes: Buffer): string =>
  `data:image/${kind};base64,${bytes.toString('base64')}`;

const head =
  'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="60mm" height="40mm" viewBox="0 0 60 40"';
const svg = (inner: string): string => `<?xml version="1.0"?>\n<svg ${head}>\n${inner}\n</svg>\n`;

/** Drawings of what builders draw. */
export const drawings: readonly string[] = [
  svg(`<style>.shed{fill:#b5432e;stroke:#000;stroke-width:.2} rect.a,#gable.b{opacity:1}</style>
<g transform="translate(2,3) rotate(10 5 5)"><path id="gable" class="shed" d="M2 28V8l12-6 12 6v20zM5 10h3v3h-3z" fill-rule="evenodd"/></g>
<rect id="post" x="30" y="10" width="25" height="18" fill="#b5432e"/>
<circle cx="5" cy="5" r="2" fill="rgb(10%,20,30)"/><polygon points="1,1 2,1 2,2" style="fill:red;stroke:blue;stroke-dasharray:1 2"/>`),
  svg(`<defs><clipPath id="c"><path d="M8.3 6.2h9v7l-3 2h-6z"/></clipPath><symbol id="s" viewBox="0 0 4 4"><ellipse rx="2" ry="1" fill="#123456"/></symbol>
<pattern id="p" width="2" height="2" patternUnits="userSpaceOnUse"><rect width="1" height="1" rx=".2"/></pattern></defs>
<image x="1" y="1" width="24" height="16" clip-path="url(#c)" xlink:href="${uri('png', png)}"/>
<use xlink:href="#s" x="20" y="5" width="8" height="8"/><use href="#i" transform="scale(.5)"/>
<image id="i" width="24" height="16" preserveAspectRatio="xMidYMid slice" href="${uri('jpeg', jpeg)}"/>
<line x1="0" y1="0" x2="10" y2="10" stroke="black"/><polyline points="0 0 1 1 2 0" fill="none" stroke="#000"/>`),
  svg(`<svg x="5" y="5" width="20mm" height="50%" viewBox="0 0 10 10" preserveAspectRatio="none">
<g transform="matrix(1 0 0 1 2 2) skewX(5)"><path d="M0 0a1 1 0 0110 10q1 1 2 2t3 3c1 2 3 4 5 6s1 1 2 2H3z" fill="#b5432e" stroke-width="1"/></g></svg>
<image width="10" height="10" xlink:href="front.png"/>`),
];

/** What SVG is made of, and what it stumbles over. */
export const drawingWords: readonly string[] = [
  ...[
    '<g>',
    '</g>',
    '<svg>',
    '</svg>',
    '<use href="#i"/>',
    '<use xlink:href="#s" x="1"/>',
    '<path d="M0 0h9v9z"/>',
    '<image',
  ],
  ...[
    '<style>',
    '</style>',
    '<![CDATA[',
    '<text>x</text>',
    '<image href="../x.png" width="9" height="9"/>',
    ']]>',
    '<!--',
    '-->',
    '<?xml-stylesheet?>',
    '<!DOCTYPE svg [<!ENTITY a "b">]>',
  ],
  ...[
    '&amp;',
    '&#10;',
    '&#x1F9F1;',
    '&a;',
    'xlink:href="#c"',
    'href="data:,"',
    'href="//host/x.png"',
    'href="file:///x"',
  ],
  ...[
    'clip-path="url(#c)"',
    'mask="url(#m)"',
    'transform="scale(0)"',
    'transform="rotate(1e9)"',
    'viewBox="0 0 0 0"',
  ],
  ...[
    'width="0"',
    'width="1e9mm"',
    'height="-1"',
    'width="100%"',
    'display="none"',
    'style="',
    'fill="none"',
    'class="',
  ],
  ...[
    'stroke-dasharray="0 0"',
    'stroke-dasharray="1e-9"',
    'stroke-width="1e6"',
    'stroke-linecap="round"',
    'rx="-1"',
    'points="',
  ],
  ...[
    'd="M0 0 1e300 1e300"',
    'd="',
    'data:image/png;base64,',
    '{',
    '}',
    ';',
    '@media print{',
    '@import "x";',
    '!important',
    'url(',
  ],
  ...[
    'xmlns="urn:x"',
    'xmlns:xlink="urn:x"',
    'id="gable"',
    'data-gaugerod="',
    '"',
    "'",
    '/>',
    '<',
    '>',
    '=',
    ' ',
    '\ufeff',
  ],
];

/** Numbers and letters of paths. */
export const pathWords: readonly string[] = [
  ...'MmLlHhVvCcSsQqTtAaZz.-+e, '.split(''),
  ...[
    '0 01',
    '1 1 0 0110 10',
    '1e309',
    '-5e-1',
    '.5.5',
    '0 0 0 0 0',
    'NaN',
    'M0 0',
    'a0 0 0 0 0 0 0',
    'A1e308 1e-308 0 1 1 5 5',
  ],
];
