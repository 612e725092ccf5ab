import { nearNames } from '../../catalogue/near-names.js';
import { outOfRange } from '../../errors/out-of-range.js';
import { profiles } from './profiles/index.js';
import type { Profile, ProfileId } from './profiles/profile.js';

/**
 * Take a kind of section.
 *
 * @param text - Its name: `i`, `plate-girder`.
 * @param name - What it is for, as the user knows it.
 * @returns The same, known to be one.
 * @throws RangeError when there is none of that name; those there are, and any near it, are in the message.
 */
export function parseProfile(text: string, name = 'profile'): ProfileId {
  const wanted = text.trim().toLowerCase();
  const found = profiles.find(({ id }) => id === wanted);
  if (found !== undefined) return found.id;
  const ids = profiles.map(({ id }) => id);
  const near = nearNames(wanted, ids);
  const meant = near.length > 0 ? ` (${near.join(', ')}?)` : '';
  throw outOfRange(`one of ${ids.join(', ')}${meant}`, name, text);
}

/**
 * Find how a kind of section is drawn.
 *
 * @param id - Of the kind.
 * @returns Its profile.
 * @throws RangeError when there is none.
 */
export function findProfile(id: ProfileId): Profile {
  const found = profiles.find((profile) => profile.id === id);
  if (found === undefined) throw outOfRange('a profile that is known', 'profile', id);
  return found;
}
