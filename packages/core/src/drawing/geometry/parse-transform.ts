import { compose, identity, type Matrix } from '../../numeric/matrix.js';

const degree = Math.PI / 180;

const functions: ReadonlyMap<string, (given: readonly number[]) => Matrix | null> = new Map([
  ['matrix', ofMatrix],
  ['translate', ([x = 0, y = 0, ...more]) => (more.length > 0 ? null : [1, 0, 0, 1, x, y])],
  ['scale', ([x = 1, y = x, ...more]) => (more.length > 0 ? null : [x, 0, 0, y, 0, 0])],
  ['rotate', ofRotate],
  ['skewX', ofSkew('x')],
  ['skewY', ofSkew('y')],
]);

function ofMatrix([a, b, c, d, e, f, ...more]: readonly number[]): Matrix | null {
  if (a === undefined || b === undefined || c === undefined || more.length > 0) return null;
  return d === undefined || e === undefined || f === undefined ? null : [a, b, c, d, e, f];
}

function ofRotate([angle = 0, x, y, ...more]: readonly number[]): Matrix | null {
  const [cos, sin] = [Math.cos(angle * degree), Math.sin(angle * degree)];
  const turn: Matrix = [cos, sin, -sin, cos, 0, 0];
  if (x === undefined) return turn;
  if (y === undefined || more.length > 0) return null;
  return compose(compose([1, 0, 0, 1, x, y], turn), [1, 0, 0, 1, -x, -y]);
}

function ofSkew(axis: 'x' | 'y'): (given: readonly number[]) => Matrix | null {
  return ([angle = 0, ...more]) => {
    if (more.length > 0) return null;
    const lean = Math.tan(angle * degree);
    return axis === 'x' ? [1, 0, lean, 1, 0, 0] : [1, lean, 0, 1, 0, 0];
  };
}

const number = /[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?/y;

function parseNumbers(text: string): number[] | null {
  const numbers: number[] = [];
  for (let at = 0; at < text.length;) {
    number.lastIndex = at;
    const match = number.exec(text);
    if (match === null) return null;
    numbers.push(Number(match[0]));
    const gap = /\s*,?\s*/y;
    gap.lastIndex = number.lastIndex;
    gap.exec(text);
    at = gap.lastIndex;
  }
  return numbers;
}

/**
 * Read a `transform` attribute.
 *
 * @param text - Such as `rotate(30 10 10) scale(2)`; nothing but blanks changes nothing.
 * @returns The transform, or null where it is none or not finite.
 * @see CSS Transforms Module Level 1, 8: the SVG transform attribute
 */
export function parseTransform(text: string): Matrix | null {
  let result = identity;
  // No two runs of blanks side by side: of many thousands, each division of them would be tried.
  const one = /\s*(?:,\s*)?([a-zA-Z]+)\s*\(([^()]*)\)/y;
  let end = 0;
  for (let match = one.exec(text); match !== null; match = one.exec(text)) {
    const [, name = '', inside = ''] = match;
    const given = parseNumbers(inside.trim());
    const next = given === null || given.length === 0 ? null : functions.get(name)?.(given);
    if (next === null || next === undefined) return null;
    result = compose(result, next);
    end = one.lastIndex;
  }
  return text.slice(end).trim() === '' && result.every(Number.isFinite) ? result : null;
}
