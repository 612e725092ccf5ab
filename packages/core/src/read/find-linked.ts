import { readdir, realpath, stat } from 'node:fs/promises';
import { basename, extname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { showPath } from '../errors/show-path.js';
import { bounds } from '../limits/limits.js';
import { liftedBy } from '../limits/over-limit.js';
import { limitsOf } from './held-limits.js';
import { TextureError } from '../errors/texture-error.js';

/** What became of a link to a picture. */
type FoundLink =
  | {
      /** A file that may be read. */
      readonly kind: 'found';
      /** Its real path. */
      readonly path: string;
      /** Whether it is where the link says. */
      readonly asLinked: boolean;
    }
  | {
      /** Nothing that may be read. */
      readonly kind: 'missing';
      /** To follow the link: `does not exist`. */
      readonly why: string;
      /** Files that may be meant. */
      readonly likely: readonly string[];
    };

/** Where links lead. */
export interface LinkFinder {
  /** Follow a link, inside the folders that may be read and nowhere else. */
  readonly follow: (href: string) => Promise<FoundLink>;
}

// What may stand for one another under one name: pictures, fonts, style sheets.
const kinds = [
  ['.png', '.jpg', '.jpeg', '.webp', '.tif', '.tiff', '.gif', '.avif'],
  ['.woff2', '.woff', '.ttf', '.otf'],
  ['.css'],
];
const mostLikely = 5;

interface Candidate {
  readonly path: string;
  readonly shown: string;
  readonly named: boolean;
}

/**
 * Follow the links of a drawing. Only files in the drawing's own folder, or in one that was named,
 * are read: links are followed to their real end first. Nothing is fetched.
 *
 * @param folder - Of the drawing.
 * @param named - A folder in which missing pictures are looked for, or undefined.
 * @returns What follows them.
 * @throws TextureError where the named folder is none.
 */
export async function findLinked(folder: string, named: string | undefined): Promise<LinkFinder> {
  const own = await realpath(folder);
  const roots = named === undefined ? [own] : [own, await realFolder(named)];
  let listed: Promise<Candidates> | undefined;
  const find = async (href: string): Promise<FoundLink> => {
    const meant = meantBy(href);
    if ('why' in meant && meant.name === null) {
      return { kind: 'missing', why: meant.why, likely: [] };
    }
    const direct = 'path' in meant ? await reach(resolve(own, meant.path), roots) : meant.why;
    if (typeof direct !== 'string') return { kind: 'found', path: direct.path, asLinked: true };
    return search(meant.name ?? '', direct, await (listed ??= listCandidates(own, named)));
  };
  const { links } = limitsOf('drawing');
  const followed = new Map<string, Promise<FoundLink>>();
  return {
    async follow(href) {
      const before = followed.get(href);
      if (before !== undefined) return before;
      if (followed.size >= links) {
        const told = `a drawing in ${showPath(folder)} leads to more than ${links} files`;
        const message = `${told}${liftedBy('links', 2 * links)}`;
        throw new TextureError('too-large', message, { limit: 'links' });
      }
      const found = find(href);
      followed.set(href, found);
      return found;
    },
  };
}

/**
 * Follow a folder's name to its real end.
 *
 * @param path - As the user gave it.
 * @returns Its real path.
 * @throws TextureError `no-file` where there is none.
 */
export async function realFolder(path: string): Promise<string> {
  const found = await stat(path).catch(() => null);
  if (found?.isDirectory() === true) return realpath(path);
  const what = found === null ? 'does not exist' : 'is a file, not a folder';
  throw new TextureError('no-file', `${showPath(path)} ${what}`);
}

type Meant =
  | { readonly path: string; readonly name: string }
  | { readonly why: string; readonly name: string | null };

const elsewhere = 'lies on another machine';

// What a link names: a path here, or why there is none, and the file's own name where it has one.
function meantBy(href: string): Meant {
  const text = href.trim();
  if (text === '') return { why: 'names nothing', name: null };
  if (text.startsWith('#')) return { why: 'points into the drawing itself', name: null };
  if (text.includes('\0') || text.includes('%00')) return { why: 'holds a NUL', name: null };
  if (text.startsWith('\\\\')) return { why: elsewhere, name: lastName(text) };
  if (/^[a-z]:[\\/]/i.test(text)) return { why: 'does not exist', name: lastName(text) };
  const scheme = /^([a-z][a-z0-9+.-]*):/i.exec(text)?.[1]?.toLowerCase();
  if (scheme === 'file') return fromFileUrl(text.slice('file:'.length));
  if (scheme !== undefined || text.startsWith('//')) {
    return { why: 'is an address, and nothing is fetched', name: null };
  }
  const path = decoded(text.replace(/[?#].*$/s, ''));
  return { path, name: lastName(path) };
}

function fromFileUrl(rest: string): Meant {
  const match = /^(?:\/\/([^/]*))?(\/.*)?$/s.exec(rest);
  const [, host = '', path = rest] = match ?? [];
  const name = lastName(decoded(path));
  if (host !== '' && host.toLowerCase() !== 'localhost') return { why: elsewhere, name };
  if (/^\/[a-z]:/i.test(path) && sep === '/') return { why: 'does not exist', name };
  return { path: decoded(path), name };
}

function lastName(path: string): string {
  return path.split(/[\\/]/).at(-1) ?? '';
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

// The real path, or why it may not be read.
async function reach(
  path: string,
  roots: readonly string[],
): Promise<{ readonly path: string } | string> {
  const real = await realpath(path).catch(() => null);
  if (real === null) return 'does not exist';
  if (!roots.some((root) => isInside(root, real))) return 'lies outside the folder of the drawing';
  const found = await stat(real).catch(() => null);
  return found?.isFile() === true ? { path: real } : 'is no file';
}

function isInside(root: string, path: string): boolean {
  const way = relative(root, path);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

// One system composes accents, another takes them apart; some heed no case.
function folded(name: string): string {
  return name.normalize('NFC').toLowerCase();
}

function stemOf(name: string): string {
  return folded(basename(name, extname(name)));
}

function kindOf(name: string): readonly string[] | undefined {
  return kinds.find((kind) => kind.includes(extname(name).toLowerCase()));
}

function search(name: string, why: string, { byName, byStem }: Candidates): FoundLink {
  const alike = byName.get(folded(name)) ?? [];
  const [only] = alike;
  if (only !== undefined && alike.length === 1) {
    return { kind: 'found', path: only.path, asLinked: false };
  }
  const kind = kindOf(name) ?? kinds[0];
  const stems =
    alike.length > 0
      ? alike
      : (byStem.get(stemOf(name)) ?? []).filter(({ path }) => kindOf(path) === kind);
  const named = stems.filter((one) => one.named);
  const [nearest] = named;
  // Another format is taken only from where someone said to look.
  if (alike.length === 0 && nearest !== undefined && named.length === 1) {
    return { kind: 'found', path: nearest.path, asLinked: false };
  }
  return { kind: 'missing', why, likely: stems.slice(0, mostLikely).map(({ shown }) => shown) };
}

// As they are looked for: a drawing may lead to thousands of files that are not there.
interface Candidates {
  readonly byName: ReadonlyMap<string, readonly Candidate[]>;
  readonly byStem: ReadonlyMap<string, readonly Candidate[]>;
}

async function listCandidates(own: string, named: string | undefined): Promise<Candidates> {
  const found: Candidate[] = [];
  await list({ folder: own, shown: '', named: false, depth: bounds.folders }, found);
  if (named !== undefined)
    await list({ folder: named, shown: named, named: true, depth: 0 }, found);
  const real = await Promise.all(
    found.map(async (one) => ({ ...one, path: await realpath(one.path) })),
  );
  const seen = new Set<string>();
  const unlike = real.filter(({ path, named: isNamed }) => {
    const isFirst = !seen.has(path);
    seen.add(path);
    return isFirst || isNamed;
  });
  return {
    byName: grouped(unlike, ({ path }) => folded(basename(path))),
    byStem: grouped(unlike, ({ path }) => stemOf(path)),
  };
}

function grouped(
  candidates: readonly Candidate[],
  nameOf: (one: Candidate) => string,
): ReadonlyMap<string, readonly Candidate[]> {
  const groups = new Map<string, Candidate[]>();
  for (const one of candidates) {
    const group = groups.get(nameOf(one));
    if (group === undefined) groups.set(nameOf(one), [one]);
    else group.push(one);
  }
  return groups;
}

interface Listing {
  readonly folder: string;
  readonly shown: string;
  readonly named: boolean;
  readonly depth: number;
}

// Links to folders are not followed: they may lead round in a circle.
async function list(listing: Listing, found: Candidate[]): Promise<void> {
  const { folder, shown, named, depth } = listing;
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  for (const entry of entries.toSorted((a, b) => (a.name < b.name ? -1 : 1))) {
    if (found.length >= bounds.listed) return;
    const path = join(folder, entry.name);
    const inner = { folder: path, shown: join(shown, entry.name), named, depth: depth + 1 };
    if (entry.isDirectory() && depth < bounds.folders) await list(inner, found);
    else if (entry.isFile() && kindOf(entry.name) !== undefined) {
      found.push({ path, shown: inner.shown, named });
    }
  }
}
