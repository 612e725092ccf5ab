import { findCourse, findScale, findSection, searchCatalogue } from '@gaugerod/core';
import { describe, expect, test } from 'vitest';

const all = searchCatalogue();

test('ids are unlike one another, whatever the case', () => {
  const ids = all.map(({ id }) => id.toLowerCase());
  expect(new Set(ids).size).toBe(ids.length);
});

describe.each(all)('$kind $id', (entry) => {
  test('says where it comes from', () => {
    expect(entry.source.length).toBeGreaterThan(5);
    expect(entry.name).not.toBe('');
  });

  test('has sizes above 0', () => {
    if (entry.kind !== 'bond') expect(Object.keys(entry.sizesMm)).not.toEqual([]);
    for (const mm of Object.values(entry.sizesMm)) {
      expect(mm > 0 && mm < 1e5).toBe(true);
    }
  });

  test('is found by its own id', () => {
    expect(searchCatalogue(entry.id)).toContainEqual(entry);
  });

  test('is what the other commands take by that id', () => {
    const { kind, id, sizesMm } = entry;
    if (kind === 'scale') expect(findScale(id)).toMatchObject({ name: id, ratio: entry.ratio });
    else if (kind === 'section') expect(findSection(id).size).toBe(sizesMm['depth']);
    else if (kind !== 'bond' && kind !== 'sleeper') {
      expect(findCourse(id)).toMatchObject({ id, size: sizesMm['course'] });
      expect(findCourse(id).uncertainty).toBeGreaterThan(0);
      expect(findCourse(id).uncertainty).toBeLessThan(0.1);
    }
  });
});

test.each([
  ['slate', 'slate-500-lap-100'],
  ['slates', 'slate-500-lap-100'],
  ['Flemish', 'flemish-garden-wall'],
  ['flemish garden', 'flemish-garden-wall'],
  ['203x133', 'UB 203x133x25'],
  ['203×133', 'UB 203x133x25'],
  ['uk brick', 'uk-imperial'],
  ['N', 'N-UK'],
  ['1:148', 'N-UK'],
  ['76.2', 'P4'],
  ['00', 'OO'],
  ['din', 'de-nf'],
  ['flemsh', 'flemish'],
  ['waalformat', 'nl-wf-10'],
  ['corrugated', 'corrugated-metric'],
  ['sleeper', 'sleeper-uk'],
])('looking for %s finds %s', (words, id) => {
  expect(searchCatalogue(words).map((entry) => entry.id)).toContain(id);
});

test('a short word is a whole word', () => {
  expect(searchCatalogue('N').every(({ kind }) => kind === 'scale')).toBe(true);
});

test.each(['xyzzy', '__proto__', 'constructor', '???'])('nothing is called %s', (words) => {
  expect(searchCatalogue(words)).toEqual([]);
});

test('sleepers are as their supplier lists them', () => {
  // 8 ft 6 in x 10 in x 5 in; 9 ft earlier. US tie from memory of AREMA: 8 ft 6 in x 9 in x 7 in.
  const sizes = (id: string) => all.find((entry) => entry.id === id)?.sizesMm;
  expect(sizes('sleeper-uk')).toEqual({ length: 2590.8, width: 254, height: 127 });
  expect(sizes('sleeper-uk-9ft')?.['length']).toBe(2743.2);
  expect(sizes('tie-us')).toEqual({ length: 2590.8, width: 228.6, height: 177.8 });
});
