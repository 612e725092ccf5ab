import { basename } from 'node:path';
import type { SlimmedPicture, SourcedPicture } from './slim-pictures.js';
import { inBytes } from './in-bytes.js';

/** What the words are about. */
export interface VerdictFacts {
  /** Of the drawing. */
  readonly path: string;
  /** Of its text. */
  readonly bytes: number;
  /** Of its file, which is smaller where it is compressed. */
  readonly stored: number;
  /** Every `image` in it. */
  readonly sourced: readonly SourcedPicture[];
  /** Its pictures, by what they show. */
  readonly slimmed: readonly SlimmedPicture[];
}

function counted(count: number, one: string, many: string): string {
  return count === 1 ? one : `${count} ${many}`;
}

function charactersOf(members: readonly SourcedPicture[]): number {
  return members
    .filter(({ source }) => source.kind === 'embedded')
    .reduce(
      (sum, { picture }) => sum + picture.href.raw.length + (picture.again?.raw.length ?? 0),
      0,
    );
}

function embeddedIn(members: readonly SourcedPicture[]): SourcedPicture[] {
  return members.filter(({ source }) => source.kind === 'embedded');
}

function shareWords({ showing }: SlimmedPicture, many: boolean): string {
  if (showing === null || showing.share >= 0.95) return '';
  const percent = showing.share * 100;
  const told = percent < 1 ? 'under 1' : String(Math.round(percent));
  return many ? `, shown at ${told} % of its area` : `, of which ${told} % shows`;
}

// The picture that takes most, with all its copies.
function largest(slimmed: readonly SlimmedPicture[]): SlimmedPicture | undefined {
  return slimmed
    .filter(({ members }) => charactersOf(members) > 0)
    .toSorted((a, b) => charactersOf(b.members) - charactersOf(a.members))[0];
}

/**
 * Say why a drawing is as large as it is.
 *
 * @param facts - What was found.
 * @returns One sentence, without a full stop.
 */
export function verdictOn(facts: VerdictFacts): string {
  const { path, bytes, stored, sourced, slimmed } = facts;
  const packed = stored === bytes ? '' : ` compressed, ${inBytes(bytes)} unpacked`;
  const head = `${basename(path)} is ${inBytes(stored)}${packed}`;
  const embedded = embeddedIn(sourced);
  const total = charactersOf(sourced);
  const most = largest(slimmed);
  if (most === undefined) {
    const linked = sourced.length - embedded.length;
    const none = linked === 0 ? 'it holds no pictures' : 'its pictures are not in it';
    return `${head}: ${none}`;
  }
  const copies = embeddedIn(most.members).length;
  const own = charactersOf(most.members);
  const what = copies > 1 ? `are ${copies} copies of one picture` : 'are one picture';
  const others = embedded.length - copies;
  const third = embedded.reduce((sum, { source, picture }) => {
    const size = source.kind === 'embedded' ? source.file.size : 0;
    return sum + picture.href.raw.length - size;
  }, 0);
  return [
    `${head}: ${inBytes(own)} ${what}${shareWords(most, copies > 1)}`,
    ...(others === 0
      ? []
      : [`${inBytes(total - own)} are ${counted(others, 'another picture', 'others')}`]),
    `${inBytes(third)} of that is base64's third`,
  ].join('; ');
}

/** What became of one `image`. */
export interface FateFacts {
  /** Its picture, and what became of that; undefined where it was not to be changed. */
  readonly slimmed: SlimmedPicture | undefined;
  /** The element. */
  readonly one: SourcedPicture;
  /** Its new link, or null where it has none. */
  readonly link: string | null;
  /** Whether pictures were to go into the drawing. */
  readonly isEmbedded: boolean;
}

/**
 * Say what became of a picture.
 *
 * @param facts - What was done.
 * @returns A few words.
 */
export function fateOf(facts: FateFacts): string {
  const { slimmed, one, link, isEmbedded } = facts;
  const { source } = one;
  if (source.kind === 'missing') return `missing: the link ${source.why}`;
  if (source.kind === 'broken') return `left as it is: it ${source.why}`;
  if (slimmed === undefined) return link === null ? 'linked, as before' : `linked anew: ${link}`;
  const words = [
    ...smallerWords(slimmed),
    ...copyWords(slimmed, one),
    ...(link === null ? [] : [`linked: ${link}`]),
    ...(isEmbedded && source.kind === 'linked' ? ['put into the drawing'] : []),
  ];
  if (slimmed.left !== null) words.push(`its pixels left, because ${slimmed.left}`);
  if (words.length > 0) return words.join(', ');
  return slimmed.isTried
    ? 'left as it is: no smaller file of it prints the same'
    : 'left as it is: it holds no more than a print shows';
}

function copyWords({ members, isShared, apart }: SlimmedPicture, one: SourcedPicture): string[] {
  if (apart !== null) return [`a copy of its own, because ${apart}`];
  if (!isShared) return [];
  return [members[0] === one ? `stored once for ${members.length} places` : 'the same picture'];
}

function smallerWords({ smaller, file: { look } }: SlimmedPicture): string[] {
  if (smaller === null) return [];
  const { plan, format, isMean } = smaller;
  const kind = format === look.format ? '' : `, as ${format.toUpperCase()}`;
  if (plan.dpi === null && !plan.isCropped) {
    return [`its ${look.width} x ${look.height} px kept${kind === '' ? ', encoded anew' : kind}`];
  }
  const was = `from ${look.width} x ${look.height} px`;
  const now = `${plan.x.count} x ${plan.y.count} px`;
  const fineness = plan.dpi === null ? '' : ` at ${Math.round(plan.dpi)} dpi`;
  const means = isMean ? ', each the mean under its dot, which browsers may show otherwise' : '';
  return [`${plan.isCropped ? 'cut' : 'brought'} ${was} to ${now}${fineness}${kind}${means}`];
}
