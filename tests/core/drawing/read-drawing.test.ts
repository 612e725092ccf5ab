import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { attributesOf } from '../../../packages/core/src/drawing/attributes-of.js';
import { decodeDrawing } from '../../../packages/core/src/drawing/decode-drawing.js';
import { editText } from '../../../packages/core/src/drawing/edit-text.js';
import { encodeDrawing } from '../../../packages/core/src/drawing/encode-drawing.js';
import { readDrawing } from '../../../packages/core/src/drawing/read-drawing.js';

const namespace = 'http://www.w3.org/2000/svg';
const svg = (inner: string): string => `<svg xmlns="${namespace}">${inner}</svg>`;

test('elements are listed with their places in the text', () => {
  const text = svg(
    `\r\n<g id='a' ><image\n href = "x&amp;y&#10;z" width='4'/>é</g><!-- <path/> -->`,
  );
  const { elements, byId } = readDrawing(text);
  expect(elements.map(({ name, last }) => [name, last])).toEqual([
    ['svg', 2],
    ['g', 2],
    ['image', 2],
  ]);
  const [, group, image] = elements;
  expect(byId.get('a')).toBe(group);
  expect(text.slice(group?.start, group?.contentStart)).toBe(`<g id='a' >`);
  expect(text.slice(group?.contentEnd, group?.end)).toBe('</g>');
  expect(text.slice(image?.start, image?.end)).toMatch(/^<image[^>]*\/>$/);
});

test('attributes are listed as written and as meant', () => {
  const text = svg(`<image\n a = "x&amp;&#x3c;\ty" b='"1"'/>`);
  const drawing = readDrawing(text);
  const [, image] = drawing.elements;
  const listed = image === undefined ? [] : attributesOf(drawing, image);
  expect(listed.map(({ name, value }) => [name, value])).toEqual([
    ['a', 'x&< y'],
    ['b', '"1"'],
  ]);
  for (const { raw, valueStart, valueEnd, start, end } of listed) {
    expect(text.slice(valueStart, valueEnd)).toBe(raw);
    expect(text.slice(start, end)).toMatch(/^[ab] ?= ?["'].*["']$/s);
  }
});

test('places hold past a picture of any length', () => {
  const either = [fc.constantFrom('', '\n', '"'), fc.constantFrom('', '\n', '\r\n ')] as const;
  fc.assert(
    fc.property(fc.nat(200_000), ...either, (length, gap, line) => {
      const value = `data:image/png;base64,${`${'A'.repeat(76)}${line}`.repeat(length / 76)}`;
      const text = svg(`<a t='${gap}'/><image href="${value}"/><b c="d"/>`);
      const { elements } = readDrawing(text);
      expect(elements.slice(1).map(({ start, end }) => text.slice(start, end))).toEqual([
        `<a t='${gap}'/>`,
        `<image href="${value}"/>`,
        '<b c="d"/>',
      ]);
    }),
    { numRuns: 30, seed: 6 },
  );
});

test('a fault past a picture that is broken into lines is told by its own line', () => {
  const value = `data:image/png;base64,${`${'A'.repeat(76)}\n`.repeat(2000)}`;
  // The picture's tag ends on the line after its last; the fault is on the next.
  const text = svg(`<image href="${value}"/>\n<b c=d/>`);
  expect(() => readDrawing(text)).toThrow(/line 2002: /);
});

test('names mean what their prefixes stand for', () => {
  const { root, elements } = readDrawing(
    `<s:svg xmlns:s="${namespace}" xmlns="urn:other"><path/><s:path xmlns:s="urn:x"/></s:svg>`,
  );
  expect(root.namespace).toBe(namespace);
  expect(elements.map((one) => one.namespace)).toEqual([namespace, 'urn:other', 'urn:x']);
});

// XML 1.0, fifth edition: 2.1 well-formed documents, 2.2 characters, 2.5 comments, 3.1 start tags,
// 4.1 references. Namespaces in XML 1.0: 5 prefixes declared, 6.3 attributes unique.
describe('what is not well-formed is refused, with the reason', () => {
  test.each([
    ['never closed', `<svg xmlns="${namespace}"><g>`],
    ['tags crossed', svg('<g><path></g></path>')],
    ['two roots', svg('') + svg('')],
    ['one attribute twice', svg('<path d="" d="M0 0"/>')],
    ['one attribute twice by two prefixes', svg('<path xmlns:a="u" xmlns:b="u" a:d="" b:d=""/>')],
    ['a prefix nobody declared', svg('<path a:d=""/>')],
    ['no quotes', svg('<path d=M0/>')],
    ['a bracket in an attribute', svg('<path id="a<b"/>')],
    ['a NUL', svg('<path id="a\0b"/>')],
    ['an entity nobody declared', svg('&nbsp;')],
    ['a reference to NUL', svg('&#0;')],
    ['two dashes in a comment', svg('<!-- a -- b -->')],
    ['text', 'hello'],
    ['another root', '<drawing/>'],
    ['no namespace', '<svg/>'],
    ['entities of its own', `<!DOCTYPE svg [<!ENTITY a "b">]>${svg('&a;')}`],
    ['251 elements deep', svg('<g>'.repeat(250) + '</g>'.repeat(250))],
  ])('%s', (_, text) => {
    expect(() => readDrawing(text)).toThrow(expect.objectContaining({ name: 'BadDrawing' }));
  });

  test('the common DOCTYPE names an address, and is let pass', () => {
    const doctype =
      '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">';
    expect(readDrawing(doctype + svg('<g/>')).elements).toHaveLength(2);
    expect(readDrawing(svg('<g>'.repeat(249) + '</g>'.repeat(249))).elements).toHaveLength(250);
  });
});

describe('a drawing is written back as it came', () => {
  const declared = (encoding: string): string =>
    `<?xml version="1.0" encoding="${encoding}"?>${svg('<title>Café</title>')}`;
  const bigEndian = (text: string): Buffer => Buffer.from(text, 'utf16le').swap16();

  test.each([
    ['utf-8', Buffer.from(declared('UTF-8'))],
    ['utf-8', Buffer.from(`\ufeff${declared('utf-8')}`)],
    ['utf-16le', Buffer.from(`\ufeff${declared('UTF-16')}`, 'utf16le')],
    ['utf-16be', bigEndian(`\ufeff${declared('UTF-16')}`)],
    ['windows-1252', Buffer.from(declared('ISO-8859-1'), 'latin1')],
  ])('%s', (label, bytes) => {
    const { text, encoding } = decodeDrawing(bytes);
    expect(encoding.label).toBe(label);
    expect(text).toContain('Café');
    expect(Buffer.concat([...encodeDrawing([text], encoding)]).equals(bytes)).toBe(true);
  });

  test.each([
    ['bytes that are no UTF-8', Buffer.from([0x3c, 0xff, 0xfe, 0xc0])],
    ['nothing', Buffer.alloc(0)],
    ['an encoding that says many bytes', Buffer.from(declared('Shift_JIS'), 'latin1')],
    ['an encoding that nobody knows', Buffer.from(declared('x-mine'), 'latin1')],
    ['UTF-16 that is none', Buffer.from(declared('UTF-16'))],
    ['a compressed file', Buffer.from([0x1f, 0x8b, 8, 0])],
  ])('%s is refused, not guessed', (_, bytes) => {
    expect(() => decodeDrawing(bytes)).toThrow(expect.objectContaining({ name: 'BadDrawing' }));
  });
});

test('edits leave all the rest as it is', () => {
  const edits = [
    { start: 5, end: 6, text: 'F' },
    { start: 1, end: 3, text: '' },
    { start: 3, end: 3, text: '+' },
  ];
  expect(editText('abcdefg', edits).join('')).toBe('a+deFg');
});
