import type { WeatherLayer, WeatherSite } from '../site.js';
import { createDamp } from './damp.js';
import { createFading } from './fading.js';
import { createGrime } from './grime.js';
import { createMoss } from './moss.js';
import { createPatches } from './patches.js';
import { createRust } from './rust.js';
import { createSalts } from './salts.js';
import { createSoot } from './soot.js';
import { createStreaks } from './streaks.js';

/**
 * Make the layers that a site asks for, in the order in which a wall gets them.
 *
 * @param site - Where, and how strong each is.
 * @returns Those that are stronger than nothing.
 */
export function listLayers(site: WeatherSite): readonly WeatherLayer[] {
  const { strengths, foot, isDry } = site;
  return [
    strengths.fade > 0 ? createFading(site) : null,
    // Says what is newer to those after it. Of what is dry whole units are new: see replace-units.
    strengths.patches > 0 && !isDry ? createPatches(site) : null,
    strengths.salts > 0 ? createSalts(site) : null,
    strengths.soot > 0 ? createSoot(site) : null,
    strengths.grime > 0 ? createGrime(site) : null,
    strengths.damp > 0 && foot !== null ? createDamp(site, foot) : null,
    strengths.streaks > 0 ? createStreaks(site) : null,
    strengths.rust > 0 ? createRust(site) : null,
    strengths.moss > 0 ? createMoss(site) : null,
  ].filter((layer) => layer !== null);
}
