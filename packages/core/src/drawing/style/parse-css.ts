import { type Block, type CssNode, type Declaration, type DeclarationList, parse } from 'css-tree';
import type { Declared } from './declarations.js';

/**
 * What a block of a style sheet, or an attribute, sets of some properties.
 *
 * @param block - Parsed without looking into values.
 * @param isWanted - Which properties, by name in lower case.
 * @returns Them; the last of two counts.
 */
export function declaredIn(
  block: Block | DeclarationList,
  isWanted: (name: string) => boolean,
): Map<string, Declared> {
  const found = new Map<string, Declared>();
  block.children.forEach((node) => {
    if (node.type !== 'Declaration') return;
    const name = node.property.toLowerCase();
    if (!isWanted(name)) return;
    const important = node.important !== false;
    if (found.get(name)?.important === true && !important) return;
    found.set(name, { value: valueOf(node), important });
  });
  return found;
}

function valueOf({ value }: Declaration): string {
  return value.type === 'Raw' ? value.value.trim() : '';
}

/**
 * Parse a piece of CSS the one way it is parsed here.
 *
 * @param text - Of a style sheet or attribute.
 * @param context - Which of the two.
 * @returns Its tree, or null where it is nested too deeply.
 */
export function parseCss(text: string, context: 'stylesheet' | 'declarationList'): CssNode | null {
  try {
    return parse(text, { context, parseValue: false, parseCustomProperty: false });
  } catch (cause) {
    // Of the stack: hostile sheets nest without end. Anything else the parser recovers from.
    if (cause instanceof RangeError) return null;
    throw cause;
  }
}
