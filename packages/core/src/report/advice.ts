import type { WarningCode } from '../errors/warning.js';

/** What to do about a warning, in a sentence. */
export const advice: Readonly<Record<WarningCode, string>> = {
  'several-frames': 'If another picture of the file is meant, save that one alone.',
  'approximate-colour':
    'Compare a test print with the real thing, or save the photo as sRGB in a photo program.',
  'wide-gamut':
    'Strong colours come out a little calmer. Compare a test print, or save the photo as sRGB first.',
  transparency:
    'If the clear places are not to be white, put a ground under them in a photo program.',
  'damaged-metadata':
    'The picture is whole. Save it anew in a photo program if the warning troubles you.',
  'no-courses': 'Mark a length (span) on the photo, or take one that shows joints clearly.',
  'few-courses':
    'Measure with a marked length (span) as well, or take a photo that shows more courses.',
  'irregular-courses':
    'Look at the overlay: do the lines lie on the joints? If not, mark a length (span) on the photo.',
  'uneven-scale':
    'Take the photo squarely from the front, or mark the four corners of a rectangle.',
  'bond-unknown':
    'Look at the repeats below the photo: if bricks meet badly, choose a photo with clearer upright joints.',
  'two-bonds': 'Cut the photo to one of the two walls, and build again.',
  'likely-other-format':
    'Check the size of brick: measure one on the wall, or look it up, and give its course.',
  'formats-tied': 'Measure one brick on the wall and give its course: shape alone cannot tell.',
  'format-unknown': 'Measure one brick on the wall and give its course in millimetres.',
  'two-works': 'Cut the photo to the one wall that you want, and build again.',
  'other-axis': 'Look at the overlay: if courses run the other way, set axis for this surface.',
  'already-tiled':
    'The photo repeats itself already, and the same bricks come back. A photo of more of the wall looks livelier.',
  'uneven-light':
    'It was taken out. Look whether the repeats below the photo are even; a photo under a grey sky is better still.',
  'hard-shadow': 'Take the photo under a grey sky, or cut the shadow away.',
  'low-resolution':
    'The print will look soft. Come nearer with the camera, or print at a lower dpi.',
  'fine-mortar':
    'Joints are finer than the print can show at this scale. That is as it should be; wider ones would be untrue.',
  'already-seamless': 'Nothing to do: the photo meets itself as it is.',
  'not-joined': 'Look at the three by three repeats for a line where they meet.',
  'too-small-to-tell':
    'Look at the three by three repeats yourself: the picture is too small to judge.',
  'one-colour': 'Check that the right photo was named.',
  'visible-seam':
    'Look at the three by three repeats. Try another method of mending, or a photo that shows more of the wall.',
  'bricks-differ': 'Use photos of the same wall, taken in the same light.',
  'cut-bricks': 'Look for bricks that are cut short. A photo with more whole bricks does better.',
  'other-work-cut': 'Cut windows, pipes and other work away from the photo where you can.',
  mirrored:
    'The photo holds its own mirror image, which an eye soon finds. Use a photo of more wall.',
  'little-kept':
    'Much of the photo was left unused. A level photo of one wall gives a larger repeat.',
  'scale-rounded':
    'The repeat was rounded to whole dots. Print finer (a higher dpi) where parts must match over a long run.',
  'doubtful-print-size': 'Check that the picture says the dpi it was made for.',
  'not-in-a-tile':
    'What has a place of its own, such as a streak under a sill, needs a part, not a repeat.',
  'foot-assumed':
    'Say how high above the ground the part begins (foot), so that damp lies where it should.',
  'cut-in-pieces': 'Glue the pieces edge to edge by their match marks, or choose larger paper.',
  'label-letters': 'Name the part with plain letters if the label must be readable on the sheet.',
  'spans-disagree':
    'Measure the marked lengths again, and look at the overlay to see which one is off.',
  'spans-repeat': 'Mark another length: the same one twice tells nothing new.',
  estimate: 'Good for a first look. Mark a known length, or name the courses, before you cut card.',
  'estimate-disagrees':
    'Check the distance and the focal length, and the size of brick: one of them is off.',
  'corners-sorted': 'Check on the overlay that the corners are those that were meant.',
  'uncertain-aspect': 'Give the size of the rectangle both ways.',
  'contradictory-size': 'Measure the rectangle again: width and height do not fit the picture.',
  'size-assumed': 'State the drawing’s size in mm, so that every program prints it alike.',
  'picture-beside': 'Keep the picture in the folder of the drawing: move both together.',
  'missing-picture': 'Put the picture back beside the drawing, and build again.',
  relinked: 'Nothing to do, if the picture that was found is the right one.',
  'left-as-it-is': 'Change the outline in the drawing program if it was to be covered.',
  'colours-unsure': 'Compare a test print with the real thing.',
  'position-kept':
    'The picture tells where the photo was taken. Remove that before you hand the file on.',
  'large-picture':
    'The file will be slow in a drawing program. Link pictures, or print at a lower dpi.',
  'no-footer': 'Print it at 100 %, not fitted to the page, and keep its pages in order.',
  'not-smaller': 'Nothing to do: it was small already.',
  unpacked:
    'It is written as a plain drawing. Let its name end with .svgz if it is to be compressed.',
  'drawn-wider': 'The printer cannot draw so fine a line. Print at a higher dpi, or accept it.',
  'no-joints':
    'Boards run from end to end of each outline. Give a shorter length if they should end within it.',
  'flange-assumed': 'Give the flange its thickness, or name a section, where it is known.',
  'faint-relief': 'Raise strength, or print at a higher dpi.',
  'contrast-untold': 'Scan the strip, or photograph it by a window to one side of it.',
  'strip-unsteady': 'Photograph the strip again, flat and in even light.',
  caution: 'Heed it before you print, sell or publish; licences are listed below.',
};
