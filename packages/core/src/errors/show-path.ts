// What draws on a terminal, breaks a line, or turns the reading direction.
const unsafe =
  /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]|\p{Surrogate}/gu;

const short = new Map([
  ['\n', '\\n'],
  ['\r', '\\r'],
  ['\t', '\\t'],
]);

function escape(character: string): string {
  const code = character.charCodeAt(0).toString(16).padStart(4, '0');
  return short.get(character) ?? `\\u${code}`;
}

/**
 * Show text that came from outside, such as a file's name, on one line and without effect on a
 * terminal.
 *
 * @param path - Any text.
 * @returns The same, with control characters escaped; over 1000 characters the middle is left out.
 */
export function showPath(path: string): string {
  const shown = path.length > 1000 ? `${path.slice(0, 400)}...${path.slice(-400)}` : path;
  return shown.replace(unsafe, escape);
}
