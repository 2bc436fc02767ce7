/** What the first bytes of a picture file say, before anything is decoded. */
export interface PictureHeader {
  kind: 'jpeg' | 'png' | 'webp';
  widthPx: number;
  heightPx: number;
}

/** How much of a file is enough to find its size: cameras put a preview and notes before it. */
export const headerBytes = 512 * 1024;

/**
 * Kind and size of a picture by its own bytes, whatever its name says; null for anything else.
 * JPEG: ITU-T T.81 annex B; PNG: ISO/IEC 15948; WebP: RFC 9649.
 */
export function pictureHeader(bytes: Uint8Array<ArrayBuffer>): PictureHeader | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  try {
    if (view.getUint16(0) === 0xffd8) return jpegHeader(view);
    if (view.getUint32(0) === 0x89504e47 && view.getUint32(4) === 0x0d0a1a0a)
      return pngHeader(view);
    if (textAt(view, 0) === 'RIFF' && textAt(view, 8) === 'WEBP') return webpHeader(view);
  } catch (error) {
    // It ends before its size is told.
    if (!(error instanceof RangeError)) throw error;
  }
  return null;
}

/** Segments up to the frame header; a scan or the end before it is no picture. */
function jpegHeader(view: DataView): PictureHeader | null {
  let at = 2;
  while (view.getUint8(at) === 0xff) {
    const marker = view.getUint8(at + 1);
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) return sized('jpeg', view.getUint16(at + 7), view.getUint16(at + 5));
    if (marker === 0xda || marker === 0xd9) return null;
    at += 2 + Math.max(view.getUint16(at + 2), 2);
  }
  return null;
}

function pngHeader(view: DataView): PictureHeader | null {
  if (textAt(view, 12) !== 'IHDR') return null;
  return sized('png', view.getUint32(16), view.getUint32(20));
}

function webpHeader(view: DataView): PictureHeader | null {
  switch (textAt(view, 12)) {
    case 'VP8 ':
      return sized('webp', view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff);
    case 'VP8L': {
      const bits = view.getUint32(21, true);
      return sized('webp', (bits & 0x3fff) + 1, ((bits >> 14) & 0x3fff) + 1);
    }
    case 'VP8X':
      return sized('webp', threeBytes(view, 24) + 1, threeBytes(view, 27) + 1);
    default:
      return null;
  }
}

function sized(
  kind: PictureHeader['kind'],
  widthPx: number,
  heightPx: number,
): PictureHeader | null {
  return widthPx > 0 && heightPx > 0 ? { kind, widthPx, heightPx } : null;
}

function threeBytes(view: DataView, at: number): number {
  return view.getUint16(at, true) + view.getUint8(at + 2) * 65_536;
}

function textAt(view: DataView, at: number): string {
  return [0, 1, 2, 3].map((next) => String.fromCharCode(view.getUint8(at + next))).join('');
}
