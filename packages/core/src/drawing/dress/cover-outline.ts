import { attributeOf, attributesOf } from '../attributes-of.js';
import type { Drawing } from '../drawing.js';
import type { Edit } from '../edit-text.js';
import { compose, invert, type Matrix } from '../../numeric/matrix.js';
import { escapeText, linkNameAt, showMatrix, svgPrefixAt, tagNameEnd } from '../markup.js';
import type { Outline } from './find-outlines.js';
import type { PlacingStyle } from '../style/style-of.js';
import { clear, mark, ours } from './mark.js';

/** What an outline is covered with. */
export interface Dressing {
  /** Covered. */
  readonly outline: Outline;
  /** Id of the picture. */
  readonly picture: string;
  /** Where that is laid: from its pixels to millimetres of paper, each time. */
  readonly places: readonly Matrix[];
}

// What makes each shape what it is.
const geometry: Readonly<Record<string, readonly string[]>> = {
  path: ['d'],
  rect: ['x', 'y', 'width', 'height', 'rx', 'ry'],
  circle: ['cx', 'cy', 'r'],
  ellipse: ['cx', 'cy', 'rx', 'ry'],
  polygon: ['points'],
  polyline: ['points'],
};

/**
 * Cover an outline: a picture clipped to it lies right under its line, and its own fill is made clear.
 * Nothing else of it changes.
 *
 * @param drawing - Which it is of.
 * @param dressing - The outline, and with what.
 * @param clipId - A free id.
 * @returns The edits, all at the outline itself.
 */
export function coverOutline(drawing: Drawing, dressing: Dressing, clipId: string): Edit[] {
  const { outline } = dressing;
  const { element } = outline;
  const at = outline.lineFirst ? element.end : element.start;
  const text = dressingText(drawing, dressing, clipId);
  const shown = { start: at, end: at, text };
  return outline.fill === 'none' ? [shown] : [shown, ...clearFill(drawing, outline)];
}

function dressingText(
  drawing: Drawing,
  { outline, picture, places }: Dressing,
  clipId: string,
): string {
  const { element, style, outside, matrix } = outline;
  // What the element itself declares does not hold beside it.
  const scope = (element.parent ?? element).scope;
  const prefix = svgPrefixAt(scope);
  const covers = ['clip-path', 'mask'].filter((name) => (style.get(name) ?? 'none') !== 'none');
  const user = covers.length === 0 ? outside : matrix;
  const link = linkNameAt(scope);
  const back = invert(user);
  const uses = places.map((place) => {
    const transform = showMatrix(back === null ? place : compose(back, place));
    return `<${prefix}use transform="${transform}" ${link}="#${picture}"/>`;
  });
  const own = styleText(outline.blending, ['opacity', 'mix-blend-mode']);
  const open = `<${prefix}g ${mark}="${ours.dressing}" clip-path="url(#${clipId})"${own}>`;
  const clip = `<${prefix}clipPath id="${clipId}">${shapeText(drawing, outline, prefix)}</${prefix}clipPath>`;
  const inner = uses.join('');
  const covered =
    covers.length === 0
      ? inner
      : `<${prefix}g${transformText(drawing, outline)}${styleText(style, covers)}>${inner}</${prefix}g>`;
  return `${open}${clip}${covered}</${prefix}g>`;
}

function styleText(style: PlacingStyle, names: readonly string[]): string {
  const set = names.flatMap((name) => {
    const value = style.get(name);
    return value === undefined ? [] : [`${name}:${value}`];
  });
  return set.length === 0 ? '' : ` style="${escapeText(set.join(';'))}"`;
}

// As they stand in the outline itself.
function shapeText(drawing: Drawing, { element, rule }: Outline, prefix: string): string {
  const attributes = attributesOf(drawing, element);
  const names = [...(geometry[element.name] ?? []), 'transform'];
  const kept = names.flatMap((name) => {
    const attribute = attributeOf(attributes, name);
    return attribute === undefined ? [] : [drawing.text.slice(attribute.start, attribute.end)];
  });
  return `<${prefix}${element.name} ${kept.join(' ')} clip-rule="${rule}"/>`;
}

function transformText(drawing: Drawing, { element }: Outline): string {
  const attributes = attributesOf(drawing, element);
  const transform = attributeOf(attributes, 'transform');
  return transform === undefined ? '' : ` ${drawing.text.slice(transform.start, transform.end)}`;
}

// Its colour stays, so that the outline is known by it again.
function clearFill(drawing: Drawing, { element }: Outline): Edit[] {
  const attributes = attributesOf(drawing, element);
  const end = attributes.at(-1)?.end ?? tagNameEnd(element);
  const add = (text: string): Edit => ({ start: end, end, text });
  const style = attributeOf(attributes, 'style');
  if (style === undefined) {
    return [add(` style="${clear.alone.added}" ${mark}="${clear.alone.mark}"`)];
  }
  const how = /(^|;)\s*$/.test(style.raw) ? clear.bare : clear.joined;
  return [
    { start: style.valueEnd, end: style.valueEnd, text: how.added },
    add(` ${mark}="${how.mark}"`),
  ];
}
