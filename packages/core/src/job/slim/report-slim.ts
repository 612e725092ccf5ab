import { base64Length } from '../../drawing/data-uri.js';
import type { Placement } from '../../drawing/places/placed-picture.js';
import type { Warning } from '../../errors/warning.js';
import { inBytes } from './in-bytes.js';
import type { MendedCssLinks, NamedLink } from './mend-css-links.js';
import type { DrawingEdits } from './slim-edits.js';
import type { SlimmedPicture, SlimWish, SourcedPicture } from './slim-pictures.js';
import { fateOf, verdictOn } from './slim-words.js';

/** What became of one `image`. */
export interface SlimmedImage {
  /** Its id, or `image 3` for the third that has none. */
  readonly id: string;
  /** What its picture took: in the drawing, or as a file beside it. */
  readonly bytesBefore: number;
  /** What it takes now: 0 where another's is used. */
  readonly bytesAfter: number;
  /** What was done, in words. */
  readonly what: string;
}

/** A link that leads to nothing that may be read. */
export interface MissingPicture {
  /** Of its `image`, as in the list of them; of another element whose style links to it, such as `style 1`. */
  readonly id: string;
  /** The link. */
  readonly href: string;
  /** Why, to follow the link. */
  readonly why: string;
  /** Files that may be meant. */
  readonly likely: readonly string[];
}

/** What a report is made of. */
export interface SlimFacts {
  /** Of the drawing. */
  readonly path: string;
  /** Of its text. */
  readonly bytes: number;
  /** Of its file, which is smaller where it is compressed. */
  readonly stored: number;
  /** Where its pictures show. */
  readonly placement: Placement;
  /** Every `image`. */
  readonly sourced: readonly SourcedPicture[];
  /** Their pictures. */
  readonly slimmed: readonly SlimmedPicture[];
  /** New links, by the element's number. */
  readonly links: ReadonlyMap<number, string>;
  /** What became of links in its style sheets and attributes. */
  readonly css: MendedCssLinks;
  /** What was changed. */
  readonly edited: DrawingEdits;
  /** What was asked. */
  readonly wish: SlimWish;
  /** Whether the drawing stays as it was. */
  readonly isKept: boolean;
}

/** All that is told of a drawing made smaller, but for its size. */
export interface SlimReport {
  /** Why it is as large as it is. */
  readonly verdict: string;
  /** Every `image`. */
  readonly images: readonly SlimmedImage[];
  /** What was not found. */
  readonly missing: readonly MissingPicture[];
  /** What the user should know. */
  readonly warnings: readonly Warning[];
}

// Renderers built on libxml2 stop at 10 MB an attribute; what programs add on the way stays below.
const largeLink = 7e6;
const longestHref = 200;

/**
 * Tell what became of a drawing's pictures.
 *
 * @param facts - What was found and done.
 * @returns In words and numbers.
 */
export function reportSlim(facts: SlimFacts): SlimReport {
  const { sourced } = facts;
  const missing = [...sourced.flatMap(missingOf), ...facts.css.missing].map((one) => ({
    ...one,
    href: one.href.slice(0, longestHref),
  }));
  return {
    verdict: verdictOn(facts),
    images: sourced.map((one) => reportImage(facts, one)),
    missing,
    warnings: [
      ...warnOfDrawing(facts),
      ...missing.map(warnOfMissing),
      ...facts.css.relinked.map(warnOfRelinked),
      ...sourced.flatMap((one) => warnOfPicture(facts, one)),
    ],
  };
}

function missingOf(one: SourcedPicture): MissingPicture[] {
  const { source } = one;
  if (source.kind !== 'missing') return [];
  const { href, why, likely } = source;
  return [{ id: idOf(one), href, why, likely }];
}

function warnOfMissing({ id, href, why, likely }: MissingPicture): Warning {
  const hint = likely.length === 0 ? '' : `; perhaps ${likely.join(' or ')}`;
  return { code: 'missing-picture', message: `${id}: ${href} ${why}${hint}` };
}

function warnOfRelinked({ id, href }: NamedLink): Warning {
  const message = `${id}: the link to it was broken, and now leads to ${href}`;
  return { code: 'relinked', message };
}

function idOf({ number, picture: { element } }: SourcedPicture): string {
  return element.id ?? `image ${number}`;
}

function slimmedOf({ slimmed }: SlimFacts, one: SourcedPicture): SlimmedPicture | undefined {
  return slimmed.find(({ members }) => members.includes(one));
}

function reportImage(facts: SlimFacts, one: SourcedPicture): SlimmedImage {
  const { links, edited, wish, isKept } = facts;
  const slimmed = slimmedOf(facts, one);
  const bytesBefore = sizeBefore(one);
  if (isKept) {
    const isLeft = slimmed !== undefined && wasToChange(slimmed);
    const what = isLeft ? 'left as it is' : fateOf({ slimmed, one, link: null, isEmbedded: false });
    return { id: idOf(one), bytesBefore, bytesAfter: bytesBefore, what };
  }
  const link = links.get(one.number) ?? null;
  const isFirst = slimmed?.members[0] === one;
  const beside = isFirst ? (slimmed.smaller?.bytes.length ?? slimmed.file.size) : 0;
  const bytesAfter =
    wish.mode === 'link' && slimmed !== undefined
      ? beside
      : (edited.sizes.get(one.number) ?? bytesBefore);
  const what = fateOf({ slimmed, one, link, isEmbedded: wish.mode === 'embed' });
  return { id: idOf(one), bytesBefore, bytesAfter, what };
}

function wasToChange({ left, smaller, isShared }: SlimmedPicture): boolean {
  return left === null && (smaller !== null || isShared);
}

function sizeBefore({ picture, source }: SourcedPicture): number {
  if (source.kind === 'linked') return source.file?.size ?? 0;
  return source.kind === 'missing' ? 0 : picture.href.raw.length + (picture.again?.raw.length ?? 0);
}

function warnOfDrawing({ placement, isKept, sourced }: SlimFacts): Warning[] {
  const warnings: Warning[] = [];
  const { isTrueSize, pictures } = placement;
  if (!isTrueSize && pictures.some(({ places }) => places.length > 0)) {
    const message =
      'the drawing states no size in mm, cm, in or pt: a unit is taken as 1/72 inch, the largest that drawing programs make of it';
    warnings.push({ code: 'size-assumed', message });
  }
  if (isKept && sourced.length > 0) {
    const message = 'nothing could be made smaller: the drawing is as it was';
    warnings.push({ code: 'not-smaller', message });
  }
  return warnings;
}

function warnOfPicture(facts: SlimFacts, one: SourcedPicture): Warning[] {
  const { source } = one;
  const id = idOf(one);
  const slimmed = slimmedOf(facts, one);
  if (source.kind === 'missing') return [];
  if (source.kind === 'broken') {
    return [{ code: 'left-as-it-is', message: `${id} is left as it is: it ${source.why}` }];
  }
  const { file } = source;
  if (file === null) {
    const message = `${id} is left as it is: what it links to is no picture that is read`;
    return [{ code: 'left-as-it-is', message }];
  }
  return [
    ...warnOfLink(facts, one),
    ...(slimmed === undefined ? [] : warnOfFile(facts, slimmed, one)),
  ];
}

function warnOfLink({ links }: SlimFacts, one: SourcedPicture): Warning[] {
  const { source, number } = one;
  const link = links.get(number);
  if (source.kind !== 'linked' || source.asLinked || link === undefined) return [];
  return [warnOfRelinked({ id: idOf(one), href: link })];
}

// Once for each picture, at the first element that shows it.
function warnOfFile(facts: SlimFacts, slimmed: SlimmedPicture, one: SourcedPicture): Warning[] {
  const { members, left, smaller, file } = slimmed;
  if (members[0] !== one) return [];
  const id = idOf(one);
  const warnings: Warning[] = [];
  if (left !== null) {
    const message = `the pixels of ${id} are left as they are, because ${left}`;
    warnings.push({ code: 'left-as-it-is', message });
  }
  if (smaller === null && file.look.holdsPosition) {
    const message = `${id} says where it was taken (GPS), and is left as it is`;
    warnings.push({ code: 'position-kept', message });
  }
  const length = base64Length(smaller?.bytes.length ?? file.size);
  if (facts.wish.mode !== 'link' && length > largeLink) {
    const message = `${id} is ${inBytes(length)} of base64: programs built on libxml2 stop at 10 MB; --link writes it beside the drawing`;
    warnings.push({ code: 'large-picture', message });
  }
  return warnings;
}
