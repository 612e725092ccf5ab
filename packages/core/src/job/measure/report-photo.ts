/** A photo as it is reported. */
export interface PhotoReport {
  /** As given. */
  readonly path: string;
  /** Columns of the upright picture. */
  readonly width: number;
  /** Rows of the upright picture. */
  readonly height: number;
}

/**
 * Report a photo.
 *
 * @param photo - As read.
 * @returns Its name and size.
 */
export function reportPhoto(photo: PhotoReport): PhotoReport {
  const { path, width, height } = photo;
  return { path, width, height };
}
