import { attributesOf } from '../attributes-of.js';
import { type Drawing, type DrawingAttribute, namespaces } from '../drawing.js';
import type { Edit } from '../edit-text.js';
import { removal } from '../markup.js';
import { clear, keptLink, mark, ours } from './mark.js';

/**
 * Take an earlier dressing out of a drawing, so that it is as it was before.
 *
 * @param drawing - As read.
 * @returns The edits: none where it was not dressed.
 */
export function undress(drawing: Drawing): Edit[] {
  if (!drawing.text.includes(mark)) return [];
  const edits: Edit[] = [];
  let next = drawing.text.indexOf(mark);
  for (let at = 0; at < drawing.elements.length; at++) {
    const element = drawing.elements[at];
    if (element === undefined) break;
    if (next < element.start) next = drawing.text.indexOf(mark, element.start);
    if (next === -1) break;
    if (next >= element.contentStart) continue;
    const attributes = attributesOf(drawing, element);
    const marked = find(attributes, mark);
    if (marked !== undefined && isOurs(marked.value)) {
      edits.push({ start: element.start, end: element.end, text: '' });
      at = element.last;
      continue;
    }
    if (marked !== undefined) edits.push(...unclear(drawing, attributes, marked));
    edits.push(...relink(drawing, attributes));
  }
  return edits;
}

function isOurs(value: string): boolean {
  return Object.values<string>(ours).includes(value);
}

function find(attributes: readonly DrawingAttribute[], name: string): DrawingAttribute | undefined {
  return attributes.find((one) => one.qualified === name);
}

function unclear(
  drawing: Drawing,
  attributes: readonly DrawingAttribute[],
  marked: DrawingAttribute,
): Edit[] {
  const how = Object.values(clear).find((one) => one.mark === marked.value);
  if (how === undefined) return [];
  const edits = [removal(drawing, marked)];
  const style = find(attributes, 'style');
  if (style === undefined) return edits;
  const { raw, valueStart, valueEnd } = style;
  if (how === clear.alone && raw === how.added) return [...edits, removal(drawing, style)];
  if (raw.endsWith(how.added)) {
    return [...edits, { start: valueEnd - how.added.length, end: valueEnd, text: '' }];
  }
  // Written anew by another program.
  const rest = raw.replace(/(^|;)\s*fill-opacity\s*:\s*0\s*(?=;|$)/, '');
  return [...edits, { start: valueStart, end: valueEnd, text: rest }];
}

function relink(drawing: Drawing, attributes: readonly DrawingAttribute[]): Edit[] {
  const kept = find(attributes, keptLink);
  if (kept === undefined) return [];
  const links = attributes.filter(
    ({ name, namespace }) =>
      name === 'href' && (namespace === null || namespace === namespaces.xlink),
  );
  const values = kept.raw.split(' ');
  return [
    removal(drawing, kept),
    ...links.map(({ valueStart, valueEnd }, i) => ({
      start: valueStart,
      end: valueEnd,
      text: values[i] ?? values[0] ?? '',
    })),
  ];
}
