import { colourNames } from './colour-names.js';

const number = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?`;
const part = new RegExp(String.raw`^(${number})(%|deg|grad|rad|turn)?$`);

interface Part {
  readonly value: number;
  readonly unit: string;
}

type Parts = readonly [Part, Part, Part];

// Of a full turn.
const turns = new Map([
  ['', 360],
  ['deg', 360],
  ['grad', 400],
  ['rad', 2 * Math.PI],
  ['turn', 1],
]);

/**
 * Read a colour as CSS spells it: a name, 3 to 8 digits, `rgb()`, `hsl()` or `hwb()`, old and new.
 *
 * @param text - Such as `#b5432e`, `firebrick`, `rgb(71% 26% 18%)`.
 * @returns `#rrggbb` in lower case, its alpha left out; null for what is no such colour.
 * @see CSS Color Module Level 4, 4 to 8
 */
export function parseCssColour(text: string): string | null {
  const word = text.trim().toLowerCase();
  const named = colourNames.get(word);
  if (named !== undefined) return named;
  if (/^#[0-9a-f]+$/.test(word)) return fromDigits(word.slice(1));
  const [, kind = '', inside = ''] = /^(rgb|hsl|hwb)a?\(([^()]*)\)$/.exec(word) ?? [];
  const parts = readParts(inside.trim());
  if (parts === null) return null;
  return kind === 'rgb' ? fromRgb(parts) : fromHue(kind, parts);
}

function fromHue(kind: string, [hue, second, third]: Parts): string | null {
  const turn = turns.get(hue.unit);
  if (turn === undefined || !isShare(second) || !isShare(third)) return null;
  const angle = (((hue.value / turn) % 1) + 1) % 1;
  if (Number.isNaN(angle)) return null;
  const share = ({ value }: Part): number => Math.min(1, Math.max(0, value / 100));
  const from = kind === 'hsl' ? fromHsl : fromHwb;
  return from(angle, share(second), share(third));
}

// The sign may be left out since level 4.
function isShare({ unit }: Part): boolean {
  return unit === '%' || unit === '';
}

function fromDigits(digits: string): string | null {
  if (digits.length === 3 || digits.length === 4) {
    return `#${digits.slice(0, 3).replace(/./g, '$&$&')}`;
  }
  return digits.length === 6 || digits.length === 8 ? `#${digits.slice(0, 6)}` : null;
}

// Three of them; alpha, after a comma or a stroke, may follow.
function readParts(inside: string): Parts | null {
  const words = inside.includes(',')
    ? inside.split(',').map((one) => one.trim())
    : inside.replace('/', ' / ').split(/\s+/);
  if (words[3] === '/') words.splice(3, 1);
  if (words.length !== 3 && words.length !== 4) return null;
  const parts = words.map((word): Part | null => {
    const match = part.exec(word === 'none' ? '0' : word);
    if (match === null) return null;
    const [, digits = '', unit = ''] = match;
    return { value: Number(digits), unit };
  });
  const [a, b, c, d] = parts;
  return !a || !b || !c || d === null ? null : [a, b, c];
}

function fromRgb(parts: readonly Part[]): string | null {
  if (parts.some(({ unit }) => unit !== '' && unit !== '%')) return null;
  return toDigits(parts.map(({ value, unit }) => (unit === '%' ? value / 100 : value / 255)));
}

function toDigits(shares: readonly number[]): string {
  const bytes = shares.map((share) => Math.round(255 * Math.min(1, Math.max(0, share))));
  return `#${bytes.map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}

// CSS Color Module Level 4, 7.1.
function hslToRgb(hue: number, saturation: number, lightness: number): number[] {
  const reach = saturation * Math.min(lightness, 1 - lightness);
  return [0, 8, 4].map((n) => {
    const k = (n + hue * 12) % 12;
    return lightness - reach * Math.max(-1, Math.min(k - 3, 9 - k, 1));
  });
}

function fromHsl(hue: number, saturation: number, lightness: number): string {
  return toDigits(hslToRgb(hue, saturation, lightness));
}

// CSS Color Module Level 4, 8.1.
function fromHwb(hue: number, white: number, black: number): string {
  if (white + black >= 1) return toDigits(Array.from({ length: 3 }, () => white / (white + black)));
  return toDigits(hslToRgb(hue, 1, 0.5).map((share) => share * (1 - white - black) + white));
}
