import type { NamedScale } from '@gaugerod/core';
import type { TextOption } from './option.js';

type Region = NonNullable<NamedScale['region']>;

const regions = ['UK', 'EU', 'US', 'JP', 'FR'] as const satisfies readonly Region[];

/** Where a scale's bare name is meant. */
export const region: TextOption<Region> = {
  flag: '--region <region>',
  help: `where a name such as N or O is meant: ${regions.join(', ')}`,
  parse: (text, { name, core }) => {
    const upper = text.trim().toUpperCase();
    return regions.find((known) => known === upper) ?? core.parseChoice(text, name, regions);
  },
};
