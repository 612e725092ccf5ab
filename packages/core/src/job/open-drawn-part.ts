import { dirname } from 'node:path';
import { attributesOf } from '../drawing/attributes-of.js';
import { parseDataUri } from '../drawing/data-uri.js';
import { decodeDrawing } from '../drawing/decode-drawing.js';
import { type Drawing, isSvg } from '../drawing/drawing.js';
import { type Box, boxAround, cornersOf } from '../drawing/geometry/box.js';
import { fitView } from '../drawing/geometry/fit-view.js';
import { compose } from '../drawing/geometry/matrix.js';
import { pageOf } from '../drawing/geometry/page.js';
import { findShapes } from '../drawing/outline/find-shapes.js';
import { findPlaces } from '../drawing/places/find-places.js';
import type { PicturePlace, PlacedPicture } from '../drawing/places/placed-picture.js';
import { readDrawing } from '../drawing/read-drawing.js';
import { showPath } from '../errors/show-path.js';
import { TextureError } from '../errors/texture-error.js';
import { findLinked } from '../read/find-linked.js';
import { openPrint, readPrint } from '../read/open-print.js';
import { mmPerInch } from '../units/units.js';
import type { OpenPart } from './open-part.js';
import { explainDrawing } from './explain-drawing.js';
import { refuseDrawing } from './refuse-drawing.js';

const otherWay =
  'a part is one upright picture, as gaugerod fill -o part.svg writes; print other drawings from the drawing program';

/**
 * Open a part that is a drawing: one picture on a page of true size.
 *
 * @param path - Of the drawing.
 * @param bytes - The file.
 * @returns Its picture, and where on the page that lies.
 * @throws TextureError when the drawing does not allow it.
 */
export async function openDrawnPart(path: string, bytes: Buffer): Promise<OpenPart> {
  const { page, shown } = look(path, bytes);
  const picture = await openPrint(path, await readShown(path, shown.picture));
  const { pixels } = picture;
  const whole = { x0: 0, y0: 0, x1: pixels.width, y1: pixels.height };
  const { matrix, rect } = shown.place;
  const { aspect } = shown.picture;
  if (aspect.fit === 'slice') throw refuse(path, 'shows a part of a picture alone');
  const box = boxAround(cornersOf(compose(matrix, fitView(whole, rect, aspect)), whole));
  const pictureSize = { width: box.x1 - box.x0, height: box.y1 - box.y0 };
  return {
    picture,
    dpi: {
      x: (pixels.width * mmPerInch) / pictureSize.width,
      y: (pixels.height * mmPerInch) / pictureSize.height,
    },
    size: { width: page.x1 - page.x0, height: page.y1 - page.y0 },
    pictureSize,
    at: { x: box.x0 - page.x0, y: box.y0 - page.y0 },
  };
}

interface ShownPicture {
  readonly picture: PlacedPicture;
  readonly place: PicturePlace;
}

function look(path: string, bytes: Buffer): { readonly page: Box; readonly shown: ShownPicture } {
  try {
    const drawing = readDrawing(decodeDrawing(bytes).text);
    const { box, isTrue } = pageOf(attributesOf(drawing, drawing.root));
    if (box === null || !isTrue) {
      throw refuseDrawing(path, 'no-print-size', {
        message:
          'does not say how large it is on paper: its width and height need units such as mm',
      });
    }
    return { page: box, shown: takePicture(path, drawing) };
  } catch (cause) {
    throw explainDrawing(path, cause);
  }
}

function refuse(path: string, what: string): TextureError {
  return refuseDrawing(path, 'bad-drawing', { message: what, hint: otherWay });
}

function takePicture(path: string, drawing: Drawing): ShownPicture {
  refuseOthers(path, drawing);
  const shown = findPlaces(drawing).pictures.flatMap((picture) =>
    picture.places.map((place) => ({ picture, place })),
  );
  const [only] = shown;
  if (only === undefined) throw refuse(path, 'shows no picture');
  if (shown.length > 1) throw refuse(path, `shows ${shown.length} pictures`);
  const why = whyNot(only);
  if (why !== null) throw refuse(path, why);
  return only;
}

// What is neither a picture nor nothing.
function refuseOthers(path: string, drawing: Drawing): void {
  const words = drawing.elements.find((element) => isSvg(element, 'text', 'foreignObject'));
  if (words !== undefined) throw refuse(path, `holds <${words.name}>, which is not laid on pages`);
  const [shape] = findShapes(drawing).shapes;
  if (shape === undefined) return;
  const name = shape.element.id === null ? `a <${shape.element.name}>` : `#${shape.element.id}`;
  throw refuse(path, `shows ${name}, and shapes are not laid on pages`);
}

function whyNot({ picture, place }: ShownPicture): string | null {
  const { doubt, isCovered, boxMatters } = picture;
  if (doubt !== null) return `holds ${doubt}`;
  // The page's own clip is one.
  if (isCovered || boxMatters || place.clips.length > 1) {
    return 'shows a picture that is clipped, masked or filtered';
  }
  const [a, b, c, d] = place.matrix;
  const isUpright = b === 0 && c === 0 && a > 0 && d > 0;
  return isUpright ? null : 'shows a picture that is turned, slanted or mirrored';
}

async function readShown(path: string, { href }: PlacedPicture): Promise<Buffer> {
  const uri = parseDataUri(href);
  if (uri !== null) {
    if (uri.base64 !== null && uri.isWhole) return Buffer.from(uri.base64, 'base64');
    throw refuse(path, 'holds a picture that is no whole base64');
  }
  const found = await (await findLinked(dirname(path), undefined)).follow(href.value);
  if (found.kind === 'found' && found.asLinked) return readPrint(found.path);
  const why = found.kind === 'missing' ? found.why : 'does not exist';
  throw new TextureError(
    'no-file',
    `${showPath(path)} shows ${showPath(href.value)}, which ${why}`,
  );
}
