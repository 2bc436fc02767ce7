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

/** What the first bytes of a picture file say of it; sides as they are stored, not turned yet. */
export interface PictureHead {
  kind: 'jpeg' | 'png' | 'webp';
  widthPx: number;
  heightPx: number;
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

/** A picture that was opened and stands upright. */
interface Opened {
  image: CanvasImageSource;
  widthPx: number;
  heightPx: number;
  close(): void;
}

/** As `Pictures.remake`. */
export async function remake(
  file: Blob,
  { mostPx, mostBytes }: PictureLimits,
  head?: PictureHead,
): Promise<MadePicture> {
  const opened = (await openedSmall(file, mostPx, head)) ?? (await openedWhole(file));
  try {
    let scale = Math.min(1, mostPx / Math.max(opened.widthPx, opened.heightPx));
    for (let turn = 0; turn <= halvings; turn++) {
      const made = await encoded(drawn(opened, scale), mostBytes);
      if (made) return made;
      scale /= 2;
    }
    throw new Error('This picture does not get small enough.');
  } finally {
    opened.close();
  }
}

async function openedWhole(file: Blob): Promise<Opened> {
  const image = await createImageBitmap(file, { imageOrientation: 'from-image' });
  return { image, widthPx: image.width, heightPx: image.height, close: () => image.close() };
}

/** What the standard says of a decoder of pictures (W3C WebCodecs) that the DOM's types leave out. */
type Frame = VideoFrame & { rotation?: number; flip?: boolean };
type Decoder = new (given: {
  data: ReadableStream;
  type: string;
  desiredWidth: number;
  desiredHeight: number;
}) => { decode(): Promise<{ image: Frame }>; close(): void };

/**
 * A large JPEG opened in eighths of its size, not much larger than it is needed: of 50 million points that
 * takes a sixth of the memory and a third of the time, and the small picture is nearer to the large one
 * (measured on Chromium 150). Null: this browser, or this file, has to be opened whole.
 */
async function openedSmall(
  file: Blob,
  mostPx: number,
  head: PictureHead | undefined,
): Promise<Opened | null> {
  const Decoder = (globalThis as { ImageDecoder?: Decoder }).ImageDecoder;
  if (!Decoder || head?.kind !== 'jpeg') return null;
  const eighths = Math.ceil((8 * mostPx) / Math.max(head.widthPx, head.heightPx));
  if (eighths >= 8) return null;
  const decoder = new Decoder({
    data: file.stream(),
    type: 'image/jpeg',
    desiredWidth: Math.ceil((head.widthPx * eighths) / 8),
    desiredHeight: Math.ceil((head.heightPx * eighths) / 8),
  });
  try {
    const { image } = await decoder.decode();
    const { displayWidth: widthPx, displayHeight: heightPx, rotation, flip } = image;
    // A browser that does not tell how a picture is turned may have left it lying.
    if (rotation !== undefined && flip !== undefined && Math.max(widthPx, heightPx) >= mostPx)
      return { image, widthPx, heightPx, close: () => image.close() };
    image.close();
    return null;
  } catch {
    return null;
  } finally {
    decoder.close();
  }
}

/** As `Pictures.pixelsOf`. */
export async function pixelsOf(picture: {
  bytes: ArrayBuffer;
  mediaType: string;
}): Promise<Pixels> {
  const { bytes, mediaType } = picture;
  const opened = await openedWhole(new Blob([bytes], { type: mediaType }));
  try {
    const canvas = drawn(opened, 1);
    const { width: widthPx, height: heightPx } = canvas;
    const rgba = paperOf(canvas).getImageData(0, 0, widthPx, heightPx).data;
    return { widthPx, heightPx, rgba };
  } finally {
    opened.close();
  }
}

/** The picture on a canvas, on white where it is see-through. */
function drawn({ image, widthPx, heightPx }: Opened, scale: number): HTMLCanvasElement {
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(widthPx * scale));
  canvas.height = Math.max(1, Math.round(heightPx * scale));
  const paper = paperOf(canvas);
  paper.fillStyle = '#ffffff';
  paper.fillRect(0, 0, canvas.width, canvas.height);
  paper.imageSmoothingQuality = 'high';
  paper.drawImage(image, 0, 0, canvas.width, canvas.height);
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
