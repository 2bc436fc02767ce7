/** A picture as it is stored: made here, so that nothing of the camera's notes is in it. */
export interface MadePicture {
  bytes: ArrayBuffer;
  mediaType: 'image/jpeg' | 'image/webp' | 'image/png';
  widthPx: number;
  heightPx: number;
}

/** How small a picture is to become. */
export interface PictureLimits {
  mostPx: number;
  mostBytes: number;
}

/** The points of a picture, four bytes each: red, green, blue, opacity. */
export interface Pixels {
  widthPx: number;
  heightPx: number;
  rgba: Uint8ClampedArray;
}

/** Opens, shrinks and shows pictures. */
export interface Pictures {
  /**
   * The picture turned upright, shrunk and encoded anew: only its points survive, no place, no time,
   * no camera. Rejects when it cannot be decoded or made small enough.
   */
  remake(file: Blob, limits: PictureLimits): Promise<MadePicture>;
  /** The points of a stored picture. Rejects when it cannot be decoded. */
  pixelsOf(picture: { bytes: ArrayBuffer; mediaType: string }): Promise<Pixels>;
  /** An address for an `img`, good until it is let go. */
  show(picture: { bytes: ArrayBuffer; mediaType: string }): { url: string; letGo: () => void };
}

const qualities = [0.85, 0.75, 0.6, 0.45] as const;
/** How often it is halved before giving up. */
const halvings = 4;

/** The device's own decoder and encoder. */
export const devicePictures: Pictures = {
  async remake(file, { mostPx, mostBytes }) {
    const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
    try {
      let scale = Math.min(1, mostPx / Math.max(bitmap.width, bitmap.height));
      for (let turn = 0; turn <= halvings; turn++) {
        const made = await encoded(drawn(bitmap, scale), mostBytes);
        if (made) return made;
        scale /= 2;
      }
      throw new Error('This picture does not get small enough.');
    } finally {
      bitmap.close();
    }
  },
  async pixelsOf({ bytes, mediaType }) {
    const bitmap = await createImageBitmap(new Blob([bytes], { type: mediaType }));
    try {
      const canvas = drawn(bitmap, 1);
      const { width: widthPx, height: heightPx } = canvas;
      const rgba = paperOf(canvas).getImageData(0, 0, widthPx, heightPx).data;
      return { widthPx, heightPx, rgba };
    } finally {
      bitmap.close();
    }
  },
  show({ bytes, mediaType }) {
    const url = URL.createObjectURL(new Blob([bytes], { type: mediaType }));
    return { url, letGo: () => URL.revokeObjectURL(url) };
  },
};

/** The picture on a canvas, on white where it is see-through. */
function drawn(bitmap: ImageBitmap, scale: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const paper = paperOf(canvas);
  paper.fillStyle = '#ffffff';
  paper.fillRect(0, 0, canvas.width, canvas.height);
  paper.imageSmoothingQuality = 'high';
  paper.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return canvas;
}

function paperOf(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const paper = canvas.getContext('2d', { colorSpace: 'srgb', willReadFrequently: true });
  if (!paper) throw new Error('This device has no room to draw on.');
  return paper;
}

/** As JPEG, which every browser can write; null while it is too heavy. */
async function encoded(canvas: HTMLCanvasElement, mostBytes: number): Promise<MadePicture | null> {
  for (const quality of qualities) {
    const blob = await new Promise<Blob | null>((done) => {
      canvas.toBlob(done, 'image/jpeg', quality);
    });
    if (blob?.type !== 'image/jpeg') throw new Error('This device cannot write a JPEG.');
    if (blob.size > mostBytes) continue;
    const shape = { widthPx: canvas.width, heightPx: canvas.height };
    return { bytes: await blob.arrayBuffer(), mediaType: 'image/jpeg', ...shape };
  }
  return null;
}
