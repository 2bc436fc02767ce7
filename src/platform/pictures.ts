import type { MadePicture, PictureHead, PictureLimits, Pixels } from '#platform/picture-work.ts';

/** Opens, shrinks and shows pictures. */
export interface Pictures {
  /**
   * The picture turned upright, shrunk and encoded anew: only its points survive, no place, no time,
   * no camera. `head`, where it is known, spares memory. Rejects when it cannot be decoded or made small
   * enough.
   */
  remake(file: Blob, limits: PictureLimits, head?: PictureHead): Promise<MadePicture>;
  /** The points of a stored picture. Rejects when it cannot be decoded. */
  pixelsOf(picture: { bytes: ArrayBuffer; mediaType: string }): Promise<Pixels>;
  /** An address for an `img`, good until it is let go. */
  show(picture: { bytes: ArrayBuffer; mediaType: string }): { url: string; letGo: () => void };
}

/** Fetches the work on pictures, which comes after the first paint. */
export function loadPictureWork() {
  return import('#platform/picture-work.ts');
}

/** The device's own decoder and encoder. */
export const devicePictures: Pictures = {
  remake: async (...given) => await (await loadPictureWork()).remake(...given),
  pixelsOf: async (picture) => await (await loadPictureWork()).pixelsOf(picture),
  show({ bytes, mediaType }) {
    const url = URL.createObjectURL(new Blob([bytes], { type: mediaType }));
    return { url, letGo: () => URL.revokeObjectURL(url) };
  },
};
