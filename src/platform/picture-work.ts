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

const qualities = [0.85, 0.75, 0.6, 0.45] as const;
/** How often it is halved before giving up. */
const halvings = 4;

/** As `Pictures.remake`. */
export async function remake(
  file: Blob,
  { mostPx, mostBytes }: PictureLimits,
): Promise<MadePicture> {
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
}

/** As `Pictures.pixelsOf`. */
export async function pixelsOf(picture: {
  bytes: ArrayBuffer;
  mediaType: string;
}): Promise<Pixels> {
  const { bytes, mediaType } = picture;
  const bitmap = await createImageBitmap(new Blob([bytes], { type: mediaType }));
  try {
    const canvas = drawn(bitmap, 1);
    const { width: widthPx, height: heightPx } = canvas;
    const rgba = paperOf(canvas).getImageData(0, 0, widthPx, heightPx).data;
    return { widthPx, heightPx, rgba };
  } finally {
    bitmap.close();
  }
}

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
