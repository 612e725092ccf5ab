/**
 * Name the surface file of a photo: `walls/wall.jpg` has `walls/wall.surface.json`.
 *
 * @param photoPath - As given, with or without folders.
 * @returns The path of the file beside it.
 */
export function sidecarPath(photoPath: string): string {
  // The last extension of the last name; a leading dot begins a name, not an extension.
  return `${photoPath.replace(/(?<=[^/\\])\.[^./\\]*$/, '')}.surface.json`;
}
