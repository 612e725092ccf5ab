import { layText } from '../../overlay/lay-text.js';
import type { Page, PageLine, PageText } from '../../page/page.js';

// Of a capital's height: lettering as on engineering drawings is drawn with a pen a tenth as wide.
const pen = 0.1;

/**
 * Letter a page with a pen, for files that know no letters.
 *
 * @param page - With texts.
 * @returns The same with lines in their place.
 */
export function letterPage(page: Page): Page {
  return { ...page, texts: [], lines: [...page.lines, ...page.texts.flatMap(toLines)] };
}

function toLines({ text, at, size, turn, anchor }: PageText): readonly PageLine[] {
  const align = anchor === 'middle' ? 'middle' : 'left';
  const paths = layText(text, { ...at, size, align, turn: (-turn * Math.PI) / 180 });
  return paths.flatMap((path) => {
    const lines: PageLine[] = [];
    for (let i = 0; i + 1 < path.length; i += 2) {
      const from = { x: path[i]!, y: path[i + 1]! };
      const next = i + 3 < path.length ? i + 2 : i;
      // The last point ends the line before it, unless it is the only one.
      if (next === i && i > 0) break;
      lines.push({ from, to: { x: path[next]!, y: path[next + 1]! }, width: pen * size });
    }
    return lines;
  });
}
