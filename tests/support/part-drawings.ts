import sharp from 'sharp';

// 480 x 240 dots, 600 to the inch: 20.32 x 10.16 mm. Red but for a blue corner, upper left.
export const png: Buffer = await (async () => {
  const blue = await sharp({ create: { width: 240, height: 120, channels: 3, background: '#00f' } })
    .png()
    .toBuffer();
  return sharp({ create: { width: 480, height: 240, channels: 3, background: '#f00' } })
    .composite([{ input: blue, left: 0, top: 0 }])
    .png()
    .toBuffer();
})();

export const uri = `data:image/png;base64,${png.toString('base64')}`;
export const image = `<image x="-0.16" y="-0.08" width="20.32" height="10.16" xlink:href="${uri}"/>`;
// A drawing of 20 x 10 mm, unless told.
export const svg = (
  inner: string,
  size = 'width="20mm" height="10mm" viewBox="0 0 20 10"',
): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ${size}>${inner}</svg>`;

/** What a part may show, of 80 x 60 mm, in its viewBox. */
export const drawn: Readonly<Record<string, string>> = {
  'flat fills of every shape': `<rect x="5" y="5" width="20" height="12" rx="3" fill="#b5432e"/><circle cx="40" cy="12" r="8" fill="rgb(20%,40%,60%)"/><ellipse cx="62" cy="12" rx="12" ry="6" transform="rotate(20 62 12)"/><polygon points="5,30 25,22 30,50" fill="green"/><path d="M35 30a6 9 30 1 1 12 8q4 6 8 0t8 0c2-9 6-9 9 3S70 55 60 52Z" fill="#333"/>`,
  'holes by either rule': `<path fill="#06c" fill-rule="evenodd" d="M5 5H35V35H5ZM10 10H30V30H10ZM15 15v10h10v-10z"/><path fill="#c60" d="M40 5H75V35H40ZM45 10V30H70V10Z"/>`,
  lines: `<g fill="none" stroke="#222" stroke-width="1.2"><path d="M5 5L30 10 8 20" stroke-linejoin="round"/><path d="M40 5L70 8 42 20" stroke-linejoin="bevel" stroke-linecap="square"/><path d="M5 30h60" stroke-dasharray="4 2 1" stroke-dashoffset="3"/><line x1="5" y1="40" x2="70" y2="50" stroke="red" stroke-linecap="round"/><rect x="20" y="44" width="8" height="8" transform="scale(2 1)"/><polyline points="5,55 20,45 30,58" fill="yellow"/><circle cx="70" cy="25" r="5" fill="cyan" style="paint-order:stroke"/></g>`,
  'what is used, moved and cut off': `<defs><g id="w"><rect width="8" height="6" fill="#358"/><path d="M0 0L8 6" stroke="#fff"/></g><symbol id="s" viewBox="0 0 10 10"><circle cx="5" cy="5" r="4.9" fill="#a33"/></symbol></defs><use href="#w" x="5" y="5"/><use xlink:href="#w" transform="matrix(-1 .3 .2 1.4 40 10)"/><use href="#s" x="45" y="5" width="20" height="15"/><svg x="5" y="30" width="30" height="20" viewBox="0 0 15 10"><circle cx="14" cy="5" r="8" fill="#585"/></svg>`,
  clips: `<defs><clipPath id="e" transform="translate(2 1)"><path clip-rule="evenodd" d="M0 0H30V30H0ZM8 8H22V22H8Z" transform="rotate(10)"/></clipPath><clipPath id="d"><circle cx="55" cy="20" r="14"/></clipPath></defs><g transform="translate(6 4)"><rect clip-path="url(#e)" width="40" height="40" fill="#264"/></g><g clip-path="url(#d)"><rect x="40" width="30" height="20" fill="#a50"/><path d="M40 20H70L55 40Z" clip-path="url(#d)" stroke="#000"/></g>`,
  'what is handed on, or not': `<g color="#264"><g color="inherit" visibility="unset"><rect x="5" y="5" width="20" height="12" fill="currentColor" visibility="revert"/></g><rect x="30" y="5" width="20" height="12" visibility="hidden"/></g><circle cx="20" cy="40" r="10" fill="#a50" stroke="#222" stroke-width="6" paint-order="markers stroke"/><path d="M40 40h30" stroke="#222" stroke-width="2" stroke-dasharray="5 0.0000001 1 4"/>`,
  'pictures turned, mirrored, clipped and cut': `<defs><clipPath id="c"><path d="M0 0L20 2 10 10Z"/></clipPath></defs><g transform="translate(30 5) rotate(30)" clip-path="url(#c)">${image}</g><g transform="translate(70 20) scale(-1 2)">${image}</g><image x="5" y="30" width="10" height="20" preserveAspectRatio="xMaxYMid slice" xlink:href="${uri}"/><image x="20" y="40" width="10" height="15" xlink:href="${uri}"/>`,
};
